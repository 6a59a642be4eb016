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

/** Null until the first answer has come. */
export function askWhy(bench: Bench, worker: Worker): ReadonlySignal<readonly Why[] | null> {
  const found = signal<readonly Why[] | null>(null);
  const question = computed(() => {
    return bench.status.value === null ? null : JSON.stringify(questionOf(bench));
  });
  let isBusy = false;
  let asked: string | null = null;
  const ask = (): void => {
    const next = question.peek();
    if (isBusy || next === null || next === asked) return;
    [isBusy, asked] = [true, next];
    worker.postMessage(JSON.parse(next));
  };
  worker.addEventListener('message', ({ data }: MessageEvent<readonly Why[]>) => {
    isBusy = false;
    found.value = data;
    ask();
  });
  // What went wrong once is tried again when something has changed.
  worker.addEventListener('error', () => (isBusy = false));
  effect(() => {
    if (question.value !== null) ask();
  });
  return found;
}

/** Only what the reasons rest on: not each step of the lesson. */
function questionOf(bench: Bench): WhyQuestion {
  const { plan, runs, rotorAndAir, airs } = bench.experiment.value;
  return {
    experiment: { ...NO_EXPERIMENT, plan, runs, rotorAndAir, airs },
    trials: bench.trials.value,
  };
}
