/** One channel's readings in a window, and what drives it: sums over any part of them at once. */
import type { Channel } from '../sample.ts';
import type { Course } from './history.ts';

/** Readings [from, to) of a course, one a block. Indices below are those of the course. */
export interface Track {
  readonly channel: Channel;
  readonly column: number;
  readonly course: Course;
  readonly from: number;
  readonly to: number;
  readonly lag_s: number;
  /** The drive begins here: one later than the readings where a lag is taken out. */
  readonly begin: number;
  /** The drive at i is now·value[i] + before·value[i−1] (bilinear inverse of the lag). */
  readonly now: number;
  readonly before: number;
  /** Mean size of the drive, never zero. */
  readonly level: number;
}

/** The smallest that a level is taken to be. */
export const LEAST_LEVEL = 1e-9;

export function createTrack(
  readings: Omit<Track, 'lag_s' | 'begin' | 'now' | 'before' | 'level'>,
  lag_s: number,
  period_s: number,
): Track {
  const { channel, column, course, from, to } = readings;
  const begin = lag_s > 0 ? from + 1 : from;
  const before = lag_s > 0 ? 0.5 - lag_s / period_s : 0;
  const now = 1 - before;
  const level = LEAST_LEVEL;
  const track = { channel, column, course, from, to, lag_s, begin, now, before, level };
  track.level = Math.max(Math.abs(driveMean(track, begin)), LEAST_LEVEL);
  return track;
}

/** Index from which the newest `count` of the drive begin, as far as there are so many. */
export function newest(track: Track, count: number): number {
  return Math.max(track.to - count, track.begin);
}

/** Sum of the drive's running sum up to an index: differences of these are sums over windows. */
export function driveSum({ course, now, before }: Track, at: number): number {
  return now * course.sums[at]! + before * course.sums[at > 0 ? at - 1 : 0]!;
}

/** The same of index times drive. */
export function driveMoment({ course, now, before }: Track, at: number): number {
  const { sums, moments } = course;
  const i = at > 0 ? at - 1 : 0;
  return now * moments[at]! + before * (moments[i]! + sums[i]!);
}

/** Mean of the drive over [from, to). */
export function driveMean(track: Track, from: number, to = track.to): number {
  return (driveSum(track, to) - driveSum(track, from)) / (to - from);
}

/** Least-squares slope of the drive over [from, to), per block. */
export function driveSlope(track: Track, from: number, to = track.to): number {
  const n = to - from;
  const sum = driveSum(track, to) - driveSum(track, from);
  const weighted = driveMoment(track, to) - driveMoment(track, from) - ((from + to - 1) / 2) * sum;
  return (weighted * 12) / (n * (n * n - 1));
}

/** Mean of the readings over [from, to). */
export function readingMean({ course }: Pick<Track, 'course'>, from: number, to: number): number {
  return (course.sums[to]! - course.sums[from]!) / (to - from);
}

/** The level that a channel has now is the mean of its readings over so long, s. */
export const LEVEL_S = 1;

export function levelNow(track: Track, period_s: number): number {
  const latest = Math.max(Math.round(LEVEL_S / period_s), 1);
  return readingMean(track, Math.max(track.to - latest, track.from), track.to);
}

/** The drive from an index on, in units of `level`. */
export function driveIn(
  { course, to, before }: Track,
  from: number,
  level: number,
): number[] {
  const { values } = course;
  const drive = new Array<number>(to - from);
  for (let i = from; i < to; i++) {
    // now + before = 1: so written, readings that do not vary give a drive that does not.
    const value = values[i]!;
    const hop = before === 0 ? 0 : value - values[i - 1]!;
    drive[i - from] = (value - before * hop) / level;
  }
  return drive;
}
