/** Whether one channel's window is flat: by slope, by rate, by its newest part. */
import {
  varianceOfMean,
  varianceOfSlope,
  type NoiseModel,
} from '../../metrology/type-a/noise-model.ts';
import { driveMean, driveSlope, LEAST_LEVEL, type Track } from './track.ts';

/** What one channel's window is judged by, in units of its level. */
export interface Window {
  readonly period_s: number;
  readonly noise: NoiseModel;
  /** What counts as no change: 1 % of the level or one converter step. */
  readonly tolerance: number;
  /** ln of the least Bayes factor in favour of stillness against a slow ramp. */
  readonly evidence: number;
}

const SLOPE_Z = 2;
const PART_Z = 2;
/** Slow ramps that are told from stillness, in levels per second: equally likely in log scale. */
const RAMPS_PER_S = [0.0012, 0.0018, 0.0027, 0.004, 0.006, 0.009, 0.0135, 0.02];
/** A warming rig's droop still counts as stillness, per second (standard deviation). */
const DROOP_PER_S = 0.0005;
/** A mean less certain than this many tolerances can't be called settled. */
const MOST_UNCERTAIN = 3;

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

/**
 * The largest error of a slope of exactly zero, for a tolerance of 1 %, that leaves odds of 2 : 1
 * for stillness: by bisection, for the odds fall as the error grows.
 */
export const CONCLUSIVE_ERROR_PER_S = ((): number => {
  let low = 1e-5;
  let high = 1;
  for (let turn = 0; turn < 60; turn++) {
    const middle = Math.sqrt(low * high);
    if (evidenceForStillness(0, middle, 1) > Math.log(2)) low = middle;
    else high = middle;
  }
  return low;
})();

/** Whether a track is flat from index `from` on. */
export function isFlat(
  track: Track,
  from: number,
  { period_s, noise, tolerance, evidence }: Window,
): boolean {
  const n = track.to - from;
  const length_s = n * period_s;
  const level = Math.max(Math.abs(driveMean(track, from)), LEAST_LEVEL);
  const slope = driveSlope(track, from) / level / period_s;
  const size = Math.abs(slope);
  const slopeError = Math.sqrt(varianceOfSlope(noise, length_s));
  if (size * length_s > 0.8 * tolerance && size > SLOPE_Z * slopeError) return false;
  const part = Math.max(Math.round(n / 4), 2);
  const at = track.to - part;
  const step = Math.abs(driveMean(track, at) - driveMean(track, from, at)) / level;
  const stepError = Math.sqrt(
    varianceOfMean(noise, part * period_s) + varianceOfMean(noise, (n - part) * period_s),
  );
  return (
    step <= 0.6 * tolerance + PART_Z * stepError &&
    Math.sqrt(varianceOfMean(noise, length_s)) <= MOST_UNCERTAIN * tolerance &&
    (evidence === -Infinity ||
      evidenceForStillness(slope, slopeError, tolerance / 0.01) >= evidence)
  );
}
