/** What one channel is doing now, in a word and in figures; nothing is decided by it. */
import { varianceOfMean, varianceOfSlope } from '../../metrology/type-a/noise-model.ts';
import { varianceOfReadingChange } from '../../metrology/type-a/reading-change.ts';
import type { ChannelMotion } from '../plateau.ts';
import { WIND } from './block.ts';
import { toleranceOf, type Detector } from './state.ts';
import {
  driveMean,
  driveSlope,
  LEAST_LEVEL,
  LEVEL_S,
  levelNow,
  newest,
  readingMean,
  type Track,
} from './track.ts';

/** In standard errors: what drives a reading goes somewhere; the reading itself does; it need not. */
const MOTION_Z = 2.5;
const CHANGE_Z = 3;
const USUAL_Z = 2.5;
/** The stretch over which a slow creep is seen. */
const CREEP_S = 5;
/** The reading itself is compared with what it was so long ago, by means over LEVEL_S. */
const CHANGE_S = 2;
/**
 * Nothing is called still where a change of so many tolerances might not be seen: what is on its
 * way goes on as a rule; what has settled, and the air, which settles at once, rest as a rule.
 */
const SEEN_ON_ITS_WAY = 2;
const SEEN_AT_REST = 6;

export interface Motion {
  readonly shown: ChannelMotion;
  /** Distance from where the reading is going, as a share of the level. */
  readonly off: number;
  /** Seconds until the approach is within the tolerance. */
  readonly wait_s: number;
}

/** One way of seeing that a reading goes somewhere. */
interface Sign {
  readonly seen: boolean;
  /** The channel's unit per second. */
  readonly slope_per_s: number;
  /** How far it goes, as a share of the level. */
  readonly off: number;
}

/** What the reading itself shows. */
interface Change extends Sign {
  /** Nothing moves, and what is worth speaking of would be seen. */
  readonly rests: boolean;
}

/** What drives the reading is not where the reading is: an approach, behind the rotor's lag. */
function approachOf(state: Detector, track: Track, period_s: number, tolerance: number): Sign {
  const { lag_s } = track;
  const latest = Math.max(Math.round(LEVEL_S / period_s), 1);
  const goal = driveMean(track, newest(track, 2 * latest));
  const off = goal === 0 ? 0 : (goal - levelNow(track, period_s)) / Math.abs(goal);
  const error = Math.sqrt(varianceOfMean(state.beliefs[track.column]!, 2 * LEVEL_S));
  return {
    seen: lag_s > 0 && Math.abs(off) > tolerance + MOTION_Z * error,
    slope_per_s: (off / lag_s) * Math.abs(goal),
    off,
  };
}

/** What drives the reading goes one way, too slowly for an approach. */
function creepOf(state: Detector, track: Track, period_s: number, tolerance: number): Sign {
  const from = newest(track, Math.max(Math.round(CREEP_S / period_s), 3));
  const length_s = (track.to - from) * period_s;
  const level = Math.max(Math.abs(driveMean(track, from)), LEAST_LEVEL);
  const slope_per_s = driveSlope(track, from) / period_s;
  const off = (slope_per_s * length_s) / level;
  const error = length_s * Math.sqrt(varianceOfSlope(state.beliefs[track.column]!, length_s));
  return { seen: Math.abs(off) > Math.max(tolerance, MOTION_Z * error), slope_per_s, off };
}

/** The reading itself has gone one way of late; what was before the last change counts, too. */
function changeOf(state: Detector, track: Track, period_s: number, tolerance: number): Change {
  const { column, lag_s } = track;
  const readings = { course: state.history.courses[column]! };
  const to = readings.course.values.length;
  const part = Math.min(Math.max(Math.round(LEVEL_S / period_s), 1), to >> 1);
  const apart = Math.min(Math.max(Math.round(CHANGE_S / period_s), part), to - part);
  const now = readingMean(readings, to - part, to);
  const by = now - readingMean(readings, to - part - apart, to - apart);
  const [length_s, apart_s] = [part * period_s, apart * period_s];
  const noise = state.beliefs[column]!;
  const error = Math.sqrt(varianceOfReadingChange(noise, { length_s, apart_s, lag_s }));
  const off = by / Math.max(Math.abs(now), LEAST_LEVEL);
  const size = Math.abs(off);
  const atRest = state.record !== null || column === WIND;
  const usual = atRest ? Math.max(tolerance, USUAL_Z * error) : tolerance - error;
  const certain = (atRest ? SEEN_AT_REST : SEEN_ON_ITS_WAY) * tolerance;
  return {
    seen: size > Math.max(tolerance, CHANGE_Z * error),
    slope_per_s: by / apart_s,
    off,
    rests: size <= usual && CHANGE_Z * error <= certain,
  };
}

/**
 * A word is said of what is seen: rising or falling where that is clear, still where nothing moves
 * and what is worth speaking of would be seen, else unsteady.
 */
export function motionOf(
  state: Detector,
  track: Track,
  { period_s, swinging }: { period_s: number; swinging: boolean },
): Motion {
  const { channel, column, lag_s } = track;
  const level = levelNow(track, period_s);
  const tolerance = toleranceOf(state, column, Math.max(Math.abs(level), LEAST_LEVEL));
  const approach = approachOf(state, track, period_s, tolerance);
  const change = changeOf(state, track, period_s, tolerance);
  const creep = creepOf(state, track, period_s, tolerance);
  const sign = [approach, change, creep].find(({ seen }) => seen);
  const { slope_per_s, off } = sign ?? { ...creep, off: 0 };
  const going = slope_per_s > 0 ? 'rising' : 'falling';
  const resting = change.rests ? 'still' : 'unsteady';
  const shown = sign === undefined ? resting : going;
  const motion = swinging && column !== WIND ? 'unsteady' : shown;
  const wait_s = approach.seen ? lag_s * Math.log(Math.abs(approach.off) / tolerance) : 0;
  return { shown: { channel, motion, level, slope_per_s }, off: Math.abs(off), wait_s };
}
