/** How a reading left its plateau: by a step, by creeping away, or by never having been still. */
import { driveMean, driveMoment, driveSlope, driveSum, type Track } from './track.ts';

export interface Departure {
  readonly manner: 'step' | 'creep' | 'drift';
  /** How many values belong to the plateau. */
  readonly at: number;
}

/** A line steeper than this is no droop, per second of the level. */
const LEAST_DRIFT_PER_S = 0.0012;

/** A line explains readings about as well as a step where it loses by less, in log likelihood. */
const ABOUT_AS_WELL = 1;

/** Splits of coarse readings may be equally good but for rounding: the earliest of them is meant. */
const TIE = 1 + 1e-9;

/** What a course of the drive takes off its sum of squares about the mean, and where it turns. */
interface Explanation {
  readonly explained: number;
  /** How many values come before the turn. */
  readonly at: number;
}

/** Which splits are tried: from `first` on, before `past`, every `stride`th. */
interface Tried {
  readonly first: number;
  readonly past: number;
  readonly stride: number;
}

/**
 * Best split of n values into two levels: where the sum of what lies before is farthest from its
 * share. `sumOf` gives the sum of the first i values.
 */
export function splitOf(
  n: number,
  sumOf: (i: number) => number,
  { first, past, stride }: Tried = { first: 1, past: n, stride: 1 },
): Explanation {
  const mean = sumOf(n) / n;
  let explained = 0;
  let at = n - 1;
  for (let i = first; i < past; i += stride) {
    const apart = sumOf(i) - i * mean;
    const squares = apart * apart * n;
    const weight = i * (n - i);
    // Most are far from the best: that is seen without a division.
    if (squares <= explained * weight) continue;
    const own = squares / weight;
    if (own > explained * TIE) {
      explained = own;
      at = i;
    }
  }
  return { explained, at };
}

function sumsSince(track: Track, from: number): (i: number) => number {
  const start = driveSum(track, from);
  return (i) => driveSum(track, from + i) - start;
}

/** The best step of a track's drive from an index on. */
export function stepIn(track: Track, from: number): Explanation {
  return splitOf(track.to - from, sumsSince(track, from));
}

/** Splits that are tried first, to find the neighbourhood of the best. */
const STRIDE = 4;

/** The same, sooner: the best near the best of every fourth split. */
export function stepNearly(track: Track, from: number): Explanation {
  const n = track.to - from;
  const sumOf = sumsSince(track, from);
  const { at } = splitOf(n, sumOf, { first: STRIDE, past: n, stride: STRIDE });
  const first = Math.max(at - STRIDE + 1, 1);
  return splitOf(n, sumOf, { first, past: Math.min(at + STRIDE, n), stride: 1 });
}

/** The straight line. */
function lineIn(track: Track, from: number): number {
  const n = track.to - from;
  return (driveSlope(track, from) ** 2 * (n * (n * n - 1))) / 12;
}

/** The best "level, then a straight line away from it". */
function creepIn(track: Track, from: number): Explanation {
  const { to } = track;
  const n = to - from;
  const mean = driveMean(track, from);
  let explained = 0;
  let at = n - 1;
  for (let bend = to - 4; bend >= from; bend--) {
    // Regression on max(0, i − bend).
    const m = to - 1 - bend;
    const tail = driveSum(track, to) - driveSum(track, bend);
    const weighted = driveMoment(track, to) - driveMoment(track, bend) - bend * tail;
    const ramp = (m * (m + 1)) / 2;
    const rampSquares = (ramp * (2 * m + 1)) / 3;
    const cross = weighted - ramp * mean;
    const own = (cross * cross) / (rampSquares - (ramp * ramp) / n);
    if (own > explained) {
      explained = own;
      at = bend - from;
    }
  }
  return { explained, at };
}

/**
 * Tells the manner in which a track left its level: by a step, unless a bend or a straight line
 * explains its drive better.
 */
export function judgeDeparture(track: Track, period_s: number): Departure {
  const { begin, level } = track;
  const step = stepIn(track, begin);
  const creep = creepIn(track, begin);
  const slope_per_s = driveSlope(track, begin) / level / period_s;
  const steps = step.explained >= Math.max(lineIn(track, begin), creep.explained);
  if (steps || Math.abs(slope_per_s) < LEAST_DRIFT_PER_S) {
    return { manner: 'step', at: step.at };
  }
  // A bend close to the beginning is a line.
  return { manner: creep.at * period_s < 3 ? 'drift' : 'creep', at: creep.at };
}

/** A step that leaves no doubt: its least share of the level, and ln of the odds that speak for it. */
const CLEAR_STEP = 0.03;
const CLEAR_ODDS = 10;
/** It must have been seen for so long, s, and what came before it for so long. */
const CLEAR_AFTER_S = 1;
const CLEAR_BEFORE_S = 2;

/**
 * Whether a track holds a step beyond doubt, to which neither a straight line nor a bend comes
 * near. `longRunVariance`: in units of the level squared times s.
 */
export function stepsClearly(
  track: Track,
  { period_s, longRunVariance }: { period_s: number; longRunVariance: number },
): boolean {
  const { begin, to, level } = track;
  const length_s = (to - begin) * period_s;
  if (length_s < CLEAR_BEFORE_S + CLEAR_AFTER_S) return false;
  const { explained, at } = stepIn(track, begin);
  const before_s = at * period_s;
  if (before_s < CLEAR_BEFORE_S || length_s - before_s < CLEAR_AFTER_S) return false;
  const unit = period_s / (2 * longRunVariance * level * level);
  if (explained * unit < CLEAR_ODDS) return false;
  const size = driveMean(track, begin + at) / driveMean(track, begin, begin + at) - 1;
  if (Math.abs(size) < CLEAR_STEP) return false;
  const otherwise = Math.max(lineIn(track, begin), creepIn(track, begin).explained);
  return (explained - otherwise) * unit > CLEAR_ODDS / 2;
}

/**
 * The slope per second, in units of `level`, of a straight line that explains the drive from an
 * index on about as well as a step does; 0 when a step explains it better or the line is level.
 */
export function rampThrough(
  track: Track,
  from: number,
  asked: { period_s: number; longRunVariance: number; level: number },
): number {
  const { period_s, longRunVariance, level } = asked;
  const slope_per_s = driveSlope(track, from) / level / period_s;
  const error = Math.sqrt((12 * longRunVariance) / ((track.to - from) * period_s) ** 3);
  const size = Math.abs(slope_per_s);
  if (size < LEAST_DRIFT_PER_S || size < 3 * error) return 0;
  const left = lineIn(track, from) - stepIn(track, from).explained;
  const better = (left * period_s) / (2 * longRunVariance * level * level);
  return better > -ABOUT_AS_WELL ? slope_per_s : 0;
}
