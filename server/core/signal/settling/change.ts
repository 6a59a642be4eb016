/** Whether a reading has left its plateau, and where. */
import {
  degreesOfFreedomOf,
  leastVarianceOfMean,
  varianceOfMean,
  varianceOfSlope,
  type NoiseModel,
} from '../../metrology/type-a/noise-model.ts';
import { stepNearly } from './departure.ts';
import { driveMean, driveSlope, type Track } from './track.ts';

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

/** The noise that a change must stand out from, in units of the level. */
export interface Standard {
  readonly noise: NoiseModel;
  readonly longRunVariance: number;
  /** Standard errors that a change must reach: more when the noise is poorly known. */
  readonly limit: number;
}

export function standardBy(noise: NoiseModel): Standard {
  const poorly = (CHANGE_Z * CHANGE_Z) / (4 * Math.max(degreesOfFreedomOf(noise), 4));
  return { noise, longRunVariance: Math.exp(noise.logLevel), limit: CHANGE_Z * (1 + poorly) };
}

/** What a change is looked for in. */
export interface Watched {
  readonly track: Track;
  readonly period_s: number;
  readonly standard: Standard;
  /** In units of the track's level, as all that follows. */
  readonly tolerance: number;
  readonly droop_per_s: number;
  /** One converter step in units of the level, times the lag: rounding moves the drive by it. */
  readonly rounding_s: number;
}

/** A change that was found. */
export interface Change {
  /** Length of the newest stretch that shows it, in readings. */
  readonly newest: number;
  /** How many times the limit it is. */
  readonly size: number;
}

/**
 * The newest stretch that is farthest from the plateau before it, in limits; null when none passes.
 * The plateau may droop: its own line is followed as far as known.
 */
export function findChange(watched: Watched): Change | null {
  const { track, period_s } = watched;
  let worst = 1;
  let found = 0;
  const length = track.to - track.begin;
  const split = length - stepNearly(track, track.begin).at;
  for (let k = 0; k <= STRETCHES_S.length; k++) {
    const stretch_s = STRETCHES_S[k] ?? split * period_s;
    const newest = Math.round(stretch_s / period_s);
    if (stretch_s < STRETCHES_S[0]!) continue;
    const nearby = Math.max(Math.round(2.5 * newest), Math.round(10 / period_s));
    const before = Math.min(length - newest, newest === split ? Infinity : nearby);
    if (newest < 1 || before < 4 || before * period_s < LEAST_BEFORE_S) continue;
    const excess = excessOf(watched, newest, before);
    if (excess > worst) {
      worst = excess;
      found = newest;
    }
  }
  return found === 0 ? null : { newest: found, size: worst };
}

/** By how many limits the newest stretch differs from that before it; 0 where clearly by none. */
function excessOf(watched: Watched, newest: number, before: number): number {
  const { track, period_s, droop_per_s } = watched;
  const { noise, longRunVariance, limit } = watched.standard;
  const least = LEAST_CHANGE * watched.tolerance + watched.rounding_s / (newest * period_s);
  const { level } = track;
  const at = track.to - newest;
  const start = at - before;
  const apart_s = ((newest + before) / 2) * period_s;
  const apart = (driveMean(track, at) - driveMean(track, start, at)) / level;
  const slope_per_s = driveSlope(track, start, at) / level / period_s;
  // Nearly always that is little even if all of the slope were droop, and the error at its least.
  const most = Math.abs(apart) + Math.abs(slope_per_s) * apart_s - least;
  if (most <= 0) return 0;
  const leastVariance = leastVarianceOfMean(noise, longRunVariance, newest * period_s);
  if (most * most < limit * limit * leastVariance) return 0;
  const slopeVariance = varianceOfSlope(noise, before * period_s);
  const droop = droop_per_s ** 2;
  const drift = (slope_per_s * droop) / (droop + slopeVariance);
  const difference = Math.abs(apart - drift * apart_s);
  if (difference <= least) return 0;
  const driftVariance = (droop * slopeVariance) / (droop + slopeVariance);
  const variance =
    varianceOfMean(noise, newest * period_s) +
    varianceOfMean(noise, before * period_s) +
    driftVariance * apart_s * apart_s;
  return (difference - least) / (limit * Math.sqrt(variance));
}

/** Whether the whole plateau drifts faster than a warming rig may. */
export function findDrift(watched: Watched): boolean {
  const { track, period_s, tolerance, droop_per_s } = watched;
  const { noise, limit } = watched.standard;
  const length_s = (track.to - track.begin) * period_s;
  if (length_s < SHORTEST_DRIFT_S) return false;
  const slope = Math.abs(driveSlope(track, track.begin)) / track.level / period_s;
  const error = Math.sqrt(varianceOfSlope(noise, length_s) + droop_per_s * droop_per_s);
  return slope * length_s > 1.5 * tolerance && slope > (limit - 1) * error;
}
