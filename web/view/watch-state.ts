/** What every page that watches shares: the bench, this device's settings, and the drawing. */
import { computed, signal, type ReadonlySignal, type Signal } from '@preact/signals';
import type { Axis } from '../draw/axis.ts';
import { powerAxisOf } from '../draw/power-axis.ts';
import { extentOf, reduceToColumns, type CurveData } from '../draw/pixel-columns.ts';
import { answerOf, type Answer } from '#core/experiment/answer/answer.ts';
import { windCurveOf, type WindCurve } from '#core/experiment/budget/wind-curve.ts';
import type { Bench } from '../model/bench.ts';
import { sessionPrefixes, type Prefixes } from '../model/quantities.ts';
import { watchWaits } from '../model/waits.ts';
import type { Catalogue } from '../words/catalogue.ts';
import { createDrawing, type Drawing } from './drawing.ts';
import { loadSettings, type Settings } from './settings.ts';

export interface WatchState {
  readonly bench: Bench;
  readonly settings: Settings;
  /** What the page says, in its language. */
  readonly words: ReadonlySignal<Catalogue>;
  readonly drawing: Drawing;
  readonly prefixes: ReadonlySignal<Prefixes>;
  /** What the experiment says so far; null where there is no plan. Not to be shown while covered. */
  readonly answer: ReadonlySignal<Answer | null>;
  /** Power against wind; null where the winds are one. Not to be shown while covered. */
  readonly windCurve: ReadonlySignal<WindCurve | null>;
  /** From the start of the fan to logged, s, as a rule; null until seen often enough. */
  readonly usualWait_s: ReadonlySignal<number | null>;
  /** Pixel columns of the power curve. */
  readonly powerColumns: Signal<number>;
  readonly powerCurve: ReadonlySignal<CurveData>;
  /** The one power axis that curve and answer plot share. */
  readonly powerAxis: ReadonlySignal<Axis>;
}

export function createWatchState(bench: Bench): WatchState {
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
    computed(() => powerAxisOf(bench.trials.value, extentOf(powerCurve.value))),
    (a, b) => a.low === b.low && a.high === b.high,
  );
  return {
    bench,
    settings,
    words: settings.words,
    drawing,
    prefixes: computed(() => sessionPrefixes(bench.trials.value, bench.most.value)),
    answer: computed(() => answerOf(bench.experiment.value, bench.trials.value)),
    windCurve: computed(() => windCurveOf(bench.experiment.value, bench.trials.value)),
    usualWait_s: watchWaits(bench),
    powerColumns,
    powerCurve,
    powerAxis,
  };
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

/** The number of the trial at work: the one logged and still open, else the next. */
export function currentTrialId({ bench }: WatchState): number {
  return bench.loggedTrial.value?.id ?? (bench.trials.value.at(-1)?.id ?? 0) + 1;
}
