/** The state of the bench page: what was heard from the program, and what follows from it. */
import { computed, signal, type ReadonlySignal, type Signal } from '@preact/signals';
import type { LiveMessage, PlateauView, Samples, Status, TrialView } from '#core/live-messages.ts';
import { appendSamples, clearBuffer, createWindowBuffer, newestTime_s, type WindowBuffer } from '../draw/window-buffer.ts';
import type { Shown } from './quantities.ts';
import { stageOf, type Judgement, type News, type Stage } from './stage.ts';

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
  /** Newest judgements, oldest first. */
  readonly judgements: Signal<readonly Judgement[]>;
  /** Something to tell that is not in the status: a refused request, a message that did not fit. */
  readonly trouble: Signal<string | null>;
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
  const judgement = computed(() => judgements.value.at(-1) ?? null);
  const loggedTrial = computed(() =>
    open.value === null ? null : openTrialOf(trials.value, status.value?.recordingId),
  );
  const stage = computed(() =>
    stageOf({
      news: news.value,
      status: status.value,
      judgement: judgement.value,
      loggedTrial: loggedTrial.value,
      lastClosed: plateaus.value.at(-1) ?? null,
    }),
  );
  return {
    buffer: createWindowBuffer(),
    quiet_s: signal(0),
    trouble: signal(null),
    most: signal({ voltage_V: 0, current_A: 0, windSpeed_mps: 0, power_W: 0 }),
    batch: signal(0),
    news, status, trials, plateaus, open, judgements, judgement, loggedTrial, stage,
  };
}

/** The trial whose plateau is still open: `logged`, not yet `final`. */
function openTrialOf(
  trials: readonly TrialView[],
  recordingId: number | undefined,
): TrialView | null {
  const newest = trials.at(-1);
  return newest?.state === 'logged' && newest.recordingId === recordingId ? newest : null;
}

/** Takes one message from the program. */
export function takeMessage(bench: Bench, message: LiveMessage): void {
  switch (message.type) {
    case 'snapshot':
      takeSnapshot(bench, message);
      break;
    case 'samples':
      takeSamples(bench, message.samples);
      break;
    case 'judgement':
      bench.judgements.value = [...bench.judgements.value, message.judgement].slice(-JUDGEMENTS_KEPT);
      break;
    case 'status':
      takeStatus(bench, message.status);
      break;
    case 'declared':
      bench.open.value = { start_s: message.start_s };
      break;
    case 'closed':
      bench.open.value = null;
      bench.plateaus.value = [...bench.plateaus.value, message.plateau].slice(-PLATEAUS_KEPT);
      break;
    case 'trial':
      bench.trials.value = withTrial(bench.trials.value, message.trial);
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
  if (snapshot.judgement !== null) bench.judgements.value = [snapshot.judgement];
  clearBuffer(bench.buffer);
  takeSamples(bench, snapshot.samples);
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
    bench.batch.value += 1;
  }
  bench.status.value = status;
}

/** The trials with this one's newest revision. */
export function withTrial(trials: readonly TrialView[], trial: TrialView): readonly TrialView[] {
  const others = trials.filter(({ id }) => id !== trial.id);
  return [...others, trial].sort((a, b) => a.id - b.id);
}

/** How long the open stretch has lasted, s; 0 when none is open. */
export function stretchLength_s(bench: Bench): number {
  const newest_s = newestTime_s(bench.buffer);
  const open = bench.open.value;
  return open === null || newest_s === null ? 0 : Math.max(newest_s - open.start_s, 0);
}

/** What the detector usually needs from truly still to settled: the median; null before three. */
export function usualWait_s(trials: readonly TrialView[]): number | null {
  const waits = trials
    .filter(({ recorded, origin }) => recorded && (origin === 'board' || origin === 'simulated'))
    .map(({ declared_s, start_s }) => declared_s - start_s)
    .sort((a, b) => a - b);
  return waits.length < 3 ? null : (waits[Math.floor(waits.length / 2)] ?? null);
}
