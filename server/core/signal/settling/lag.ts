/**
 * The rotor's inertia makes a reading follow what drives it as a first-order lag:
 *   drive = reading + lag·d(reading)/dt.
 * Seen that way a step of the fan or of a blade is a step again, the approach to the new level is
 * gone, and turbulence that the rotor has smoothed is nearly white. What is still to come of the
 * approach is the drive's level minus the reading.
 */
import type { Course } from './history.ts';

/** What a lag is taken to be before one was seen, and where it must lie, s. */
const USUAL_LAG_S = 1.2;
const SHORTEST_S = 0.15;
const LONGEST_S = 6;
/** The fan itself takes about this long; the rotor's own approach shows after it. */
const FAN_S = 1.2;
/** An approach must span this share of the level for a lag to be told from it. */
const LEAST_SPAN = 0.12;

/** Belief in ln(lag, s), from the approaches seen. */
export interface LagMemory {
  logLag: number;
  weight: number;
}

export function createLagMemory(): LagMemory {
  return { logLag: Math.log(USUAL_LAG_S), weight: 1 };
}

export function learnLag(memory: LagMemory, lag_s: number): void {
  memory.logLag += (Math.log(lag_s) - memory.logLag) * (2 / (memory.weight + 2));
  memory.weight = Math.min(memory.weight + 2, 6);
}

/** The drive between each two neighbouring readings (bilinear inverse of the lag): one fewer. */
export function driveOf(
  values: ArrayLike<number>,
  period_s: number,
  lag_s: number,
): number[] {
  const drive = new Array<number>(Math.max(values.length - 1, 0));
  const gain = lag_s / period_s;
  for (let i = 1; i < values.length; i++) {
    const now = values[i]!;
    const before = values[i - 1]!;
    drive[i - 1] = (now + before) / 2 + gain * (now - before);
  }
  return drive;
}

/** Sums over an approach, of neighbouring readings: their steps and their means. */
interface Approach {
  /** Of step times mean, about the means of both; negative while it approaches something. */
  readonly product: number;
  /** Of step squared, likewise. */
  readonly squares: number;
  readonly from: number;
  readonly count: number;
}

/** The approach since the change at `start`; null when it spans too little for a lag to show. */
function approachSince(course: Course, start: number, period_s: number): Approach | null {
  const { values, sums, hops } = course;
  const from = start + Math.round(FAN_S / period_s);
  const end = values.length;
  const n = end - 1 - from;
  if (n < 6) return null;
  let low = Infinity;
  let high = -Infinity;
  for (let i = from + 1; i < end; i++) {
    const value = values[i]!;
    if (value < low) low = value;
    if (value > high) high = value;
  }
  if (high - low < LEAST_SPAN * Math.max(Math.abs(high), Math.abs(low))) return null;
  const first = values[from]!;
  const last = values[end - 1]!;
  // Of step times mean the sum telescopes.
  const meanStep = (last - first) / n;
  const meanLevel = (sums[end]! - sums[from]! - (first + last) / 2) / n;
  const product = (last * last - first * first) / 2 - n * meanStep * meanLevel;
  const squares = hops[end]! - hops[from + 1]! - n * meanStep * meanStep;
  return { product, squares, from, count: n };
}

const credible = (lag_s: number): number | null =>
  lag_s > SHORTEST_S ? Math.min(lag_s, LONGEST_S) : null;

/**
 * The lag of an approach, from the line of reading against rate of change; null when the readings
 * since the change, from `start` on, span too little for it to show. Gusts are in the rate of
 * change and make it too short, by up to a quarter behind a slow rotor.
 */
export function fitLag(course: Course, start: number, period_s: number): number | null {
  const approach = approachSince(course, start, period_s);
  return approach === null ? null : credible((-approach.product / approach.squares) * period_s);
}

/**
 * The same by the geometric mean of that line and of the one of rate of change against reading,
 * which the fan's own lag makes too long (reduced major axis; from memory). A lag that is too short
 * takes too little noise for what drives the rotor.
 */
export function fitLagEvenly(course: Course, start: number, period_s: number): number | null {
  const approach = approachSince(course, start, period_s);
  if (approach === null || approach.product >= 0) return null;
  const { squares, from, count } = approach;
  const { values } = course;
  let sum = 0;
  let spread = 0;
  for (let i = from + 1; i <= from + count; i++) {
    const level = (values[i]! + values[i - 1]!) / 2 - values[from]!;
    sum += level;
    spread += level * level;
  }
  return credible(Math.sqrt((spread - (sum * sum) / count) / squares) * period_s);
}
