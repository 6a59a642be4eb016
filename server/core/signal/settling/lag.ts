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

/**
 * The lag of an approach, from the line that reading against rate of change then is; null when
 * the readings since the change, from `start` on, span too little for it to show.
 */
export function fitLag(course: Course, start: number, period_s: number): number | null {
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
  // Sums over neighbours of step, of step times mean (which telescopes) and of step squared.
  const meanStep = (last - first) / n;
  const meanLevel = (sums[end]! - sums[from]! - (first + last) / 2) / n;
  const product = (last * last - first * first) / 2 - n * meanStep * meanLevel;
  const squares = hops[end]! - hops[from + 1]! - n * meanStep * meanStep;
  const lag_s = (-product / squares) * period_s;
  return lag_s > SHORTEST_S ? Math.min(lag_s, LONGEST_S) : null;
}
