/** Asks for the reasons whenever what they rest on has changed: one question at a time. */
import { computed, effect, signal, type ReadonlySignal } from '@preact/signals';
import type { Why } from '#core/experiment/why/why.ts';
import { NO_EXPERIMENT, type ExperimentView } from '#core/experiment/view.ts';
import type { TrialView } from '#core/live-messages.ts';
import type { Bench } from '../model/bench.ts';

export interface WhyQuestion {
  readonly experiment: ExperimentView;
  readonly trials: readonly TrialView[];
}

/** From the worker: the reasons, or what it stumbled over. */
export type WhyReply = { readonly whys: readonly Why[] } | { readonly fault: string };

export type Reasons =
  | { readonly kind: 'working' }
  | { readonly kind: 'found'; readonly whys: readonly Why[] }
  | {
      readonly kind: 'failed';
      /** not-loaded: the worker never got going; stumbled: it broke off. */
      readonly how: 'not-loaded' | 'stumbled';
      /** As the browser or the program says it; "" where they say nothing. */
      readonly detail: string;
    };

export interface Asking {
  readonly reasons: ReadonlySignal<Reasons>;
  /** Once more, with another worker. */
  again(): void;
}

/** As much of a worker as is needed. */
export type WhyWorker = Pick<Worker, 'postMessage' | 'addEventListener' | 'terminate'>;

/** @param open may throw: then there is no worker to be had */
export function askWhy(bench: Bench, open: () => WhyWorker): Asking {
  const reasons = signal<Reasons>({ kind: 'working' });
  const question = computed(() => {
    return bench.status.value === null ? null : JSON.stringify(questionOf(bench));
  });
  let worker: WhyWorker | null = null;
  let isBusy = false;
  let asked: string | null = null;

  const fail = (how: 'not-loaded' | 'stumbled', detail: string): void => {
    worker?.terminate();
    [worker, isBusy] = [null, false];
    reasons.value = { kind: 'failed', how, detail };
    // What was asked meanwhile may fare better.
    ask();
  };
  const opened = (): WhyWorker => {
    const made = open();
    made.addEventListener('message', ({ data }: MessageEvent<WhyReply>) => {
      if (made !== worker) return;
      if ('fault' in data) return fail('stumbled', data.fault);
      isBusy = false;
      reasons.value = { kind: 'found', whys: data.whys };
      ask();
    });
    made.addEventListener('error', (event) => {
      if (made === worker) fail('not-loaded', event.message ?? '');
    });
    return made;
  };
  const ask = (): void => {
    const next = question.peek();
    if (isBusy || next === null || next === asked) return;
    asked = next;
    if (reasons.peek().kind === 'failed') reasons.value = { kind: 'working' };
    try {
      worker ??= opened();
      isBusy = true;
      worker.postMessage(JSON.parse(next));
    } catch (error) {
      fail('not-loaded', (error as Error).message);
    }
  };
  effect(() => {
    if (question.value !== null) ask();
  });
  return {
    reasons,
    again: () => {
      asked = null;
      ask();
    },
  };
}

/** Only what the reasons rest on: not each step of the lesson. */
function questionOf(bench: Bench): WhyQuestion {
  const { plan, runs, rotorAndAir, fits, airs } = bench.experiment.value;
  return {
    experiment: { ...NO_EXPERIMENT, plan, runs, rotorAndAir, fits, airs },
    trials: bench.trials.value,
  };
}
