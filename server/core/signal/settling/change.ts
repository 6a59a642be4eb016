/** Whether a reading has left its plateau, and where. */
import {
  degreesOfFreedomOf,
  varianceOfMean,
  varianceOfSlope,
  type NoiseModel,
} from '../../metrology/type-a/noise-model.ts';
import { residualOfStep } from './departure.ts';
import { slopeOf } from './flatness.ts';

/** Newest stretches that are compared with what came before, s. */
const STRETCHES_S = [0.8, 1.2, 1.6, 2.4, 3.2, 4.8, 6.4, 9, 12.8, 18, 25];
/** Least stretch before it. */
const LEAST_BEFORE_S = 2.4;
/** In standard errors; the multiple looks of an hour of stillness pass it about once. */
const CHANGE_Z = 4;
/** A difference below this many tolerances is never a change. */
const LEAST_CHANGE = 0.4;
/** How fast rigs droop as they warm up: at first, later, and the time between (per s; per s; s). */
const DROOP_AT_FIRST = 0.0007;
const DROOP_LATER = 0.0001;
const WARM_UP_S = 25;

/** A drift shows over at least this long. */
const SHORTEST_DRIFT_S = 6;

/** Droop to be reckoned with (standard deviation, share of the level per second). */
export function droopRate(sinceStart_s: number): number {
  return DROOP_LATER + DROOP_AT_FIRST * Math.exp(-sinceStart_s / WARM_UP_S);
}

/** Standard errors a difference must reach, wider when the noise is poorly known. */
function limitOf(noise: NoiseModel): number {
  return CHANGE_Z * (1 + (CHANGE_Z * CHANGE_Z) / (4 * Math.max(degreesOfFreedomOf(noise), 4)));
}

/**
 * Length of the newest stretch, in readings, that is farthest from the plateau before it, in
 * limits; 0 when none passes. The plateau may droop: its own line is followed as far as known.
 */
export function findChange(asked: {
  values: readonly number[];
  period_s: number;
  noise: NoiseModel;
  tolerance: number;
  droop_per_s: number;
  /** One converter step in units of the level, times the lag: rounding moves the drive by it. */
  rounding_s: number;
}): number {
  const { values, period_s, noise, tolerance, droop_per_s, rounding_s } = asked;
  const limit = limitOf(noise);
  let worst = 1;
  let found = 0;
  const split = values.length - residualOfStep(values).at;
  for (const stretch_s of [...STRETCHES_S, split * period_s]) {
    const newest = Math.round(stretch_s / period_s);
    if (stretch_s < STRETCHES_S[0]!) continue;
    const nearby = Math.max(Math.round(2.5 * newest), Math.round(10 / period_s));
    const before = Math.min(values.length - newest, newest === split ? Infinity : nearby);
    if (newest < 1 || before < 4 || before * period_s < LEAST_BEFORE_S) continue;
    const least = LEAST_CHANGE * tolerance + rounding_s / stretch_s;
    const stretch = { values, newest, before, period_s, noise, least, droop_per_s };
    const excess = excessOf(stretch) / limit;
    if (excess > worst) {
      worst = excess;
      found = newest;
    }
  }
  return found;
}

function excessOf(asked: {
  values: readonly number[];
  newest: number;
  before: number;
  period_s: number;
  noise: NoiseModel;
  /** A difference that is none, in units of the level. */
  least: number;
  droop_per_s: number;
}): number {
  const { values, newest, before, period_s, noise, least, droop_per_s } = asked;
  const n = values.length;
  const reference = slopeOf(values.slice(n - newest - before, n - newest), period_s);
  const now = slopeOf(values.slice(n - newest), period_s).mean;
  const apart_s = ((newest + before) / 2) * period_s;
  const slopeVariance = varianceOfSlope(noise, before * period_s);
  const droop = droop_per_s ** 2;
  const drift = (reference.slope * droop) / (droop + slopeVariance);
  const driftVariance = (droop * slopeVariance) / (droop + slopeVariance);
  const error = Math.sqrt(
    varianceOfMean(noise, newest * period_s) +
      varianceOfMean(noise, before * period_s) +
      driftVariance * apart_s * apart_s,
  );
  const difference = Math.abs(now - reference.mean - drift * apart_s);
  return Math.max(difference - least, 0) / error;
}

/** Whether the whole plateau drifts faster than a warming rig may. */
export function findDrift(asked: {
  values: readonly number[];
  period_s: number;
  noise: NoiseModel;
  tolerance: number;
  droop_per_s: number;
}): boolean {
  const { values, period_s, noise, tolerance, droop_per_s } = asked;
  const length_s = values.length * period_s;
  if (length_s < SHORTEST_DRIFT_S) return false;
  const slope = Math.abs(slopeOf(values, period_s).slope);
  const error = Math.sqrt(varianceOfSlope(noise, length_s) + droop_per_s * droop_per_s);
  return slope * length_s > 1.5 * tolerance && slope > (limitOf(noise) - 1) * error;
}
