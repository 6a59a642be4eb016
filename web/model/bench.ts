/** The state of the bench page: what was heard from the program, and what follows from it. */
import { batch, computed, signal, type ReadonlySignal, type Signal } from '@preact/signals';
import { NO_EXPERIMENT, type ExperimentView } from '#core/experiment/view.ts';
import type { LiveMessage, PlateauView, Samples, Status, TrialView } from '#core/live-messages.ts';
import {
  appendSamples,
  clearBuffer,
  createWindowBuffer,
  type WindowBuffer,
} from '../draw/window-buffer.ts';
import type { Shown } from './quantities.ts';
import type { Told } from './told.ts';
import { powerLevel_W, stageOf, type Judgement, type News, type Stage } from './stage.ts';

/** Judgements kept for the numerals: some seconds' worth. */
const JUDGEMENTS_KEPT = 12;
/** Closed plateaus kept: more than a minute can hold. */
const PLATEAUS_KEPT = 60;

/** A settled stretch that is still open. */
export interface OpenStretch {
  readonly start_s: number;
}

export interface Bench {
  readonly buffer: WindowBuffer;
  readonly news: Signal<News>;
  /** Seconds since the last message, whole. */
  readonly quiet_s: Signal<number>;
  readonly status: Signal<Status | null>;
  readonly trials: Signal<readonly TrialView[]>;
  readonly plateaus: Signal<readonly PlateauView[]>;
  readonly open: Signal<OpenStretch | null>;
  readonly experiment: Signal<ExperimentView>;
  /** Newest judgements, oldest first. */
  readonly judgements: Signal<readonly Judgement[]>;
  /** Something to tell that is not in the status: a refused request, a message that did not fit. */
  readonly trouble: Signal<Told | null>;
  /** Least power since a plateau closed; null when the page has not watched since. */
  readonly leastSinceClosed_W: Signal<number | null>;
  /** Stream time of the newest judgement that said settled. */
  readonly settledUntil_s: Signal<number | null>;
  /** Largest reading of the session on this page, by size. */
  readonly most: Signal<Readonly<Record<Shown, number>>>;
  /** Counts up with every batch of samples. */
  readonly batch: Signal<number>;
  readonly judgement: ReadonlySignal<Judgement | null>;
  readonly loggedTrial: ReadonlySignal<TrialView | null>;
  readonly stage: ReadonlySignal<Stage>;
}

export function createBench(): Bench {
  const status = signal<Status | null>(null);
  const trials = signal<readonly TrialView[]>([]);
  const plateaus = signal<readonly PlateauView[]>([]);
  const open = signal<OpenStretch | null>(null);
  const judgements = signal<readonly Judgement[]>([]);
  const news = signal<News>('connecting');
  const most = signal({ voltage_V: 0, current_A: 0, windSpeed_mps: 0, power_W: 0 });
  const settledUntil_s = signal<number | null>(null);
  const judgement = computed(() => judgements.value.at(-1) ?? null);
  const loggedTrial = computed(() =>
    open.value === null ? null : openTrialOf(trials.value, status.value?.recordingId),
  );
  const leastSinceClosed_W = signal<number | null>(null);
  const stage = computed(() =>
    stageOf({
      news: news.value,
      status: status.value,
      judgement: judgement.value,
      loggedTrial: loggedTrial.value,
      lastClosed: plateaus.value.at(-1) ?? null,
      leastSinceClosed_W: leastSinceClosed_W.value,
      mostPower_W: mostPower_W(most.value, trials.value),
    }),
  );
  return {
    buffer: createWindowBuffer(),
    quiet_s: signal(0),
    experiment: signal(NO_EXPERIMENT),
    trouble: signal(null),
    batch: signal(0),
    news,
    status,
    trials,
    plateaus,
    open,
    judgements,
    judgement,
    loggedTrial,
    stage,
    leastSinceClosed_W,
    settledUntil_s,
    most,
  };
}

/** The largest power of trials and readings, W. */
function mostPower_W(most: { power_W: number }, trials: readonly TrialView[]): number {
  return Math.max(most.power_W, ...trials.map(({ power_W }) => power_W?.value ?? 0));
}

/** The trial whose plateau is still open: `logged`, not yet `final`. */
function openTrialOf(
  trials: readonly TrialView[],
  recordingId: number | undefined,
): TrialView | null {
  const newest = trials.at(-1);
  return newest?.state === 'logged' && newest.recordingId === recordingId ? newest : null;
}

/** Takes one message from the program; what follows from it is drawn once. */
export function takeMessage(bench: Bench, message: LiveMessage): void {
  batch(() => take(bench, message));
}

function take(bench: Bench, message: LiveMessage): void {
  switch (message.type) {
    case 'snapshot':
      takeSnapshot(bench, message);
      break;
    case 'samples':
      takeSamples(bench, message.samples);
      break;
    case 'judgement':
      takeJudgement(bench, message.judgement);
      break;
    case 'status':
      takeStatus(bench, message.status);
      break;
    case 'declared':
      bench.open.value = { start_s: message.start_s };
      break;
    case 'closed':
      bench.open.value = null;
      bench.leastSinceClosed_W.value = Infinity;
      bench.plateaus.value = [...bench.plateaus.value, message.plateau].slice(-PLATEAUS_KEPT);
      break;
    case 'trial':
      bench.trials.value = withTrial(bench.trials.value, message.trial);
      break;
    case 'experiment':
      bench.experiment.value = message.experiment;
      break;
  }
}

type Snapshot = Extract<LiveMessage, { type: 'snapshot' }>;

function takeSnapshot(bench: Bench, snapshot: Snapshot): void {
  const { recordingId } = snapshot.status;
  takeStatus(bench, snapshot.status);
  bench.trials.value = [...snapshot.trials].sort((a, b) => a.id - b.id);
  bench.plateaus.value = snapshot.plateaus
    .filter((plateau) => plateau.recordingId === recordingId)
    .slice(-PLATEAUS_KEPT);
  bench.open.value = snapshot.openSince_s === null ? null : { start_s: snapshot.openSince_s };
  bench.experiment.value = snapshot.experiment;
  bench.leastSinceClosed_W.value = null;
  bench.judgements.value = [];
  if (snapshot.judgement !== null) takeJudgement(bench, snapshot.judgement);
  clearBuffer(bench.buffer);
  takeSamples(bench, snapshot.samples);
}

function takeJudgement(bench: Bench, judgement: Judgement): void {
  bench.judgements.value = [...bench.judgements.value, judgement].slice(-JUDGEMENTS_KEPT);
  if (judgement.phase === 'settled') bench.settledUntil_s.value = judgement.time_s;
  const least_W = bench.leastSinceClosed_W.value;
  if (least_W !== null) bench.leastSinceClosed_W.value = Math.min(least_W, powerLevel_W(judgement));
}

function takeSamples(bench: Bench, samples: Samples): void {
  appendSamples(bench.buffer, samples);
  const most = { ...bench.most.peek() };
  samples.time_s.forEach((_, i) => {
    const voltage = samples.voltage_V[i] ?? 0;
    const current = samples.current_A[i] ?? 0;
    most.voltage_V = Math.max(most.voltage_V, Math.abs(voltage));
    most.current_A = Math.max(most.current_A, Math.abs(current));
    most.power_W = Math.max(most.power_W, Math.abs(voltage * current));
  });
  bench.most.value = most;
  bench.batch.value += 1;
}

/** A new recording begins a new stream time: nothing of the old one may be drawn into it. */
function takeStatus(bench: Bench, status: Status): void {
  if (bench.status.value !== null && bench.status.value.recordingId !== status.recordingId) {
    clearBuffer(bench.buffer);
    bench.judgements.value = [];
    bench.plateaus.value = [];
    bench.open.value = null;
    bench.settledUntil_s.value = null;
    bench.batch.value += 1;
  }
  bench.status.value = status;
}

/** The trials with this one's newest revision. */
export function withTrial(trials: readonly TrialView[], trial: TrialView): readonly TrialView[] {
  const others = trials.filter(({ id }) => id !== trial.id);
  return [...others, trial].sort((a, b) => a.id - b.id);
}

/** Whether a stored session is shown: nothing in it can be done any more. */
export function isPlayed({ status }: Pick<Bench, 'status'>): boolean {
  return status.value !== null && status.value.playing !== null;
}

/** How long the open stretch has lasted, s; 0 when none is open. */
export function stretchLength_s({ open, settledUntil_s }: Bench): number {
  if (open.value === null || settledUntil_s.value === null) return 0;
  return Math.max(settledUntil_s.value - open.value.start_s, 0);
}
