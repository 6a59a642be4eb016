/** Whether one channel's window is flat: by slope, by rate, by its newest part. */
import {
  varianceOfMean,
  varianceOfSlope,
  type NoiseModel,
} from '../../metrology/type-a/noise-model.ts';

/** A window of one channel in units of its level. */
export interface Window {
  readonly values: readonly number[];
  readonly period_s: number;
  readonly noise: NoiseModel;
  /** What counts as no change: 1 % of the level or one converter step. */
  readonly tolerance: number;
  /** ln of the least Bayes factor in favour of stillness against a slow ramp. */
  readonly evidence: number;
}

export interface Flatness {
  readonly flat: boolean;
  readonly mean: number;
  readonly slope_per_s: number;
  readonly slopeError_per_s: number;
}

const SLOPE_Z = 2;
const PART_Z = 2;
/** Slow ramps that are told from stillness, in levels per second: equally likely in log scale. */
const RAMPS_PER_S = [0.0012, 0.0018, 0.0027, 0.004, 0.006, 0.009, 0.0135, 0.02];
/** A warming rig's droop still counts as stillness, per second (standard deviation). */
const DROOP_PER_S = 0.0005;
/** A mean less certain than this many tolerances can't be called settled. */
const MOST_UNCERTAIN = 3;

/** Mean and least-squares slope of equally spaced values. */
export function slopeOf(
  values: readonly number[],
  period_s: number,
): { mean: number; slope: number } {
  const n = values.length;
  const middle = (n - 1) / 2;
  let sum = 0;
  let weighted = 0;
  for (let i = 0; i < n; i++) {
    sum += values[i]!;
    weighted += (i - middle) * values[i]!;
  }
  return { mean: sum / n, slope: (weighted * 12) / (n * (n * n - 1)) / period_s };
}

/** Mean of the newest `part` of the values minus the mean of the others. */
export function newestMinusOthers(values: readonly number[], part: number): number {
  const n = values.length;
  let newest = 0;
  let others = 0;
  for (let i = 0; i < n; i++) {
    if (i < n - part) others += values[i]!;
    else newest += values[i]!;
  }
  return newest / part - others / (n - part);
}

/**
 * ln of how much better a slope fits stillness than a slow ramp of unknown rate (Bayes factor of
 * two simple families; the rates in log scale).
 */
export function evidenceForStillness(slope: number, slopeError: number, scale: number): number {
  const droop = DROOP_PER_S * scale;
  const still = slopeError * slopeError + droop * droop;
  const stillness = Math.exp((-0.5 * slope * slope) / still) / Math.sqrt(still);
  let ramps = 0;
  for (const rate of RAMPS_PER_S) {
    const up = (slope - rate * scale) / slopeError;
    const down = (slope + rate * scale) / slopeError;
    ramps += Math.exp(-0.5 * up * up) + Math.exp(-0.5 * down * down);
  }
  return Math.log(stillness) - Math.log(ramps / (2 * RAMPS_PER_S.length * slopeError) + 1e-300);
}

export function judgeFlatness({ values, period_s, noise, tolerance, evidence }: Window): Flatness {
  const n = values.length;
  const length_s = n * period_s;
  const { mean, slope } = slopeOf(values, period_s);
  const size = Math.abs(slope);
  const slopeError = Math.sqrt(varianceOfSlope(noise, length_s));
  const part = Math.max(Math.round(n / 4), 2);
  const step = Math.abs(newestMinusOthers(values, part));
  const stepError = Math.sqrt(
    varianceOfMean(noise, part * period_s) + varianceOfMean(noise, (n - part) * period_s),
  );
  const flat =
    (size * length_s <= 0.8 * tolerance || size <= SLOPE_Z * slopeError) &&
    evidenceForStillness(slope, slopeError, tolerance / 0.01) >= evidence &&
    step <= 0.6 * tolerance + PART_Z * stepError &&
    Math.sqrt(varianceOfMean(noise, length_s)) <= MOST_UNCERTAIN * tolerance;
  return { flat, mean, slope_per_s: slope, slopeError_per_s: slopeError };
}
