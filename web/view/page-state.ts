/** What the views share: the bench, this device's settings, and what is chosen on the page. */
import { computed, effect, signal, type ReadonlySignal, type Signal } from '@preact/signals';
import type { ActionRequest, BoardRequest } from '#core/live-messages.ts';
import type { AcrossBy } from '../draw/trial-marks.ts';
import { niceAxis, type Axis } from '../draw/axis.ts';
import { extentOf, reduceToColumns, type CurveData } from '../draw/pixel-columns.ts';
import { expandedUncertainty } from '#core/metrology/format.ts';
import type { TrialView } from '#core/live-messages.ts';
import type { Bench } from '../model/bench.ts';
import { KINDS, sessionPrefixes, type Prefixes } from '../model/quantities.ts';
import { watchWaits } from '../model/waits.ts';
import type { Refusal } from '../feed/requests.ts';
import { createDrawing, type Drawing } from './drawing.ts';
import type { Catalogue } from '../words/catalogue.ts';
import { loadSettings, type Settings } from './settings.ts';

/** Which trial's reason or note is being typed. */
export interface Editing {
  readonly trialId: number;
  readonly kind: 'strike' | 'note';
}

/** A zero that is about to be asked for: not before a second look. */
export interface ZeroPrompt {
  readonly channel: number;
  /** Why the program would rather not; null before it was asked. */
  readonly doubt: string | null;
}

export interface PageState {
  readonly bench: Bench;
  readonly settings: Settings;
  /** What the page says, in its language. */
  readonly words: ReadonlySignal<Catalogue>;
  readonly drawing: Drawing;
  readonly prefixes: ReadonlySignal<Prefixes>;
  /** From the start of the fan to logged, s, as a rule; null until seen often enough. */
  readonly usualWait_s: ReadonlySignal<number | null>;
  readonly acrossBy: Signal<AcrossBy>;
  /** The trial that keys act on; null: the newest. */
  readonly chosenId: Signal<number | null>;
  readonly editing: Signal<Editing | null>;
  /** Whether what is known of the board is unfolded. */
  readonly boardShown: Signal<boolean>;
  readonly zeroPrompt: Signal<ZeroPrompt | null>;
  /** Notices that have been read. */
  readonly dismissed: Signal<ReadonlySet<string>>;
  /** Pixel columns of the power curve. */
  readonly powerColumns: Signal<number>;
  readonly powerCurve: ReadonlySignal<CurveData>;
  /** The one power axis that curve and answer plot share. */
  readonly powerAxis: ReadonlySignal<Axis>;
  act(request: ActionRequest): void;
  useBoard(id: string): void;
  /** Resolves with null once the program has taken it up. */
  wantOfBoard(request: BoardRequest): Promise<Refusal | null>;
}

const HEADROOM = 1.04;

export function createPageState(
  requests: Pick<PageState, 'act' | 'useBoard' | 'wantOfBoard'> & { readonly bench: Bench },
): PageState {
  const { bench, act, useBoard, wantOfBoard } = requests;
  const settings = loadSettings();
  const drawing = createDrawing(bench, settings);
  const powerColumns = signal(200);
  const powerCurve = computed(() =>
    reduceToColumns(bench.buffer, 'power_W', {
      ...drawing.frame.value,
      columns: powerColumns.value,
    }),
  );
  const powerAxis = keepEqual(
    computed(() => powerAxisOf(powerCurve.value, bench.trials.value)),
    (a, b) => a.low === b.low && a.high === b.high,
  );
  const dismissed = signal<ReadonlySet<string>>(new Set());
  forgetDismissed(bench, dismissed);
  return {
    bench,
    settings,
    words: settings.words,
    drawing,
    powerColumns,
    powerCurve,
    powerAxis,
    act,
    useBoard,
    wantOfBoard,
    prefixes: computed(() => sessionPrefixes(bench.trials.value, bench.most.value)),
    usualWait_s: watchWaits(bench),
    acrossBy: signal<AcrossBy>('number'),
    chosenId: signal<number | null>(null),
    editing: signal<Editing | null>(null),
    boardShown: signal(false),
    zeroPrompt: signal<ZeroPrompt | null>(null),
    dismissed,
  };
}

/** What was read and is over may come back, and is news then. */
function forgetDismissed({ status }: Bench, dismissed: PageState['dismissed']): void {
  effect(() => {
    const messages = new Set(status.value?.notices.map(({ message }) => message));
    const still = [...dismissed.peek()].filter((message) => messages.has(message));
    if (still.length < dismissed.peek().size) dismissed.value = new Set(still);
  });
}

function powerAxisOf(curve: CurveData, trials: readonly TrialView[]): Axis {
  const live = extentOf(curve);
  const ends = trials.flatMap(({ power_W }) => {
    if (power_W === null) return [];
    const U = expandedUncertainty(power_W) ?? 0;
    return [power_W.value - U, power_W.value + U];
  });
  const most = Math.max(live?.most ?? 0, 0, ...ends);
  // Noise about zero is no reason for an axis below zero.
  const least = Math.min(live?.least ?? 0, 0, ...ends);
  return niceAxis(least < -0.05 * most ? least : 0, most * HEADROOM, KINDS.power_W.usual);
}

/** The same object as long as nothing has changed, so that what depends on it is left alone. */
function keepEqual<T>(source: ReadonlySignal<T>, same: (a: T, b: T) => boolean): ReadonlySignal<T> {
  let kept: T | undefined;
  return computed(() => {
    const next = source.value;
    if (kept === undefined || !same(kept, next)) kept = next;
    return kept;
  });
}

/** The trial that keys act on: the chosen one, else the newest. */
export function chosenTrial({ bench, chosenId }: PageState): TrialView | null {
  const trials = bench.trials.value;
  return trials.find(({ id }) => id === chosenId.value) ?? trials.at(-1) ?? null;
}

/** The number of the trial at work: the one logged and still open, else the next. */
export function currentTrialId({ bench }: PageState): number {
  return bench.loggedTrial.value?.id ?? (bench.trials.value.at(-1)?.id ?? 0) + 1;
}
