/**
 * One recording as it happens: inputs go through the pipeline and, with what they gave, to the
 * store. A trial is told to the world only after its commit, which also holds the input up to it.
 */
import type { ClosedPlateau, Event } from '#core/events.ts';
import type { TrialBook } from '#core/experiment/trial-book.ts';
import type { Trial } from '#core/experiment/trial.ts';
import type { Input } from '#core/inputs.ts';
import type { TrialView } from '#core/live-messages.ts';
import { begin, type PipelineState } from '#core/pipeline/state.ts';
import { step } from '#core/pipeline/step.ts';
import type { Judgement } from '#core/signal/plateau.ts';
import { judgementOf, learntOf } from '#core/signal/settling/detector.ts';
import type { Request } from '#protocol/frame.ts';
import type { RecordingInfo, Store } from './store/store.ts';

/** Input that no trial waits for is committed this often; a crash loses at most as much of it. */
const FLUSH_EVERY_MS = 1000;

/** What viewers may be shown at once. */
export type ShownEvent =
  | Exclude<Event, { kind: 'trial' | 'closed' | 'ask' | 'experiment' | 'judged' }>
  | { readonly kind: 'judged'; readonly judgement: Judgement };

export interface RecorderListener {
  /** At once: everything but trials, closed plateaus and requests. */
  event(event: ShownEvent): void;
  /** To be sent to the board. */
  ask(request: Request): void;
  /** After they are on disk. */
  committed(trials: readonly TrialView[], plateaus: readonly ClosedPlateau[]): void;
  /** What is to be shown of the experiment has changed, and is on disk. */
  experiment(): void;
  /** Once, when the store can't take this recording any further: another one must be begun. */
  cutOff(): void;
}

export interface Recorder {
  readonly info: RecordingInfo;
  /** The time now, as inputs carry it. */
  readonly clock: () => number;
  state(): PipelineState;
  take(input: Input): void;
  /** Settles when all that came of what was taken is on disk and told; null: nothing is under way. */
  untold(): Promise<void> | null;
  /** Resolves when everything taken so far is on disk. */
  flush(): Promise<void>;
  /** Stops the periodic flush after a last one. */
  close(): Promise<void>;
}

export function createRecorder(
  store: Pick<Store, 'commit'>,
  info: RecordingInfo,
  clock: () => number,
  book: TrialBook,
  listener: RecorderListener,
): Recorder {
  let state = begin(info.head, info.id, book);
  let inputs: Input[] = [];
  let trials: Trial[] = [];
  let plateaus: ClosedPlateau[] = [];
  let ledger = state.conductor.ledger;
  /** Commits under way that a viewer must not be ahead of. */
  let waiting = 0;
  let isExperimentNews = false;
  let lastCommit: Promise<void> = Promise.resolve();
  let isCutOff = false;

  function take(input: Input): void {
    inputs.push(input);
    const result = step(state, input);
    state = result.state;
    for (const event of result.events) {
      if (event.kind === 'trial') trials.push(event.trial);
      else if (event.kind === 'closed') plateaus.push(event.plateau);
      else if (event.kind === 'ask') listener.ask(event.request);
      else if (event.kind === 'experiment') isExperimentNews = true;
      else if (event.kind === 'judged') tellJudgement();
      else listener.event(event);
    }
    const isDecided = state.conductor.ledger !== ledger;
    if (trials.length > 0 || plateaus.length > 0 || isDecided) commit();
    tellOfExperiment();
  }

  function tellJudgement(): void {
    const judgement = judgementOf(state.detector);
    if (judgement !== null) listener.event({ kind: 'judged', judgement });
  }

  /** Only what is on disk is shown: a run is done once its trial is. */
  function tellOfExperiment(): void {
    if (!isExperimentNews || waiting > 0) return;
    isExperimentNews = false;
    listener.experiment();
  }

  function commit(): void {
    // What was learnt changes with plateaus only, so the periodic flush need not carry it.
    const learnt = plateaus.length > 0 ? learntOf(state.detector) : null;
    const decided = state.conductor.ledger === ledger ? null : state.conductor.ledger;
    const batch = { inputs, trials, plateaus, learnt, ledger: decided };
    ledger = state.conductor.ledger;
    waiting += 1;
    inputs = [];
    trials = [];
    plateaus = [];
    // The store keeps the order of commits, so the last one to resolve is the last one asked for.
    // What it can't keep it says itself (`Store.onState`).
    lastCommit = store.commit(info.id, batch).then(
      (views) => {
        waiting -= 1;
        const isWorthTelling = views.length > 0 || batch.plateaus.length > 0;
        if (isWorthTelling) listener.committed(views, batch.plateaus);
        tellOfExperiment();
      },
      () => {
        if (!isCutOff) listener.cutOff();
        isCutOff = true;
      },
    );
  }

  function flush(): Promise<void> {
    if (inputs.length > 0) commit();
    return lastCommit;
  }

  const timer = setInterval(() => void flush(), FLUSH_EVERY_MS);
  return {
    info,
    clock,
    state: () => state,
    take,
    untold: () => (waiting > 0 ? lastCommit : null),
    flush,
    close: async () => {
      clearInterval(timer);
      await flush();
    },
  };
}
