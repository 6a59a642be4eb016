/**
 * The rotor's inertia makes a reading follow what drives it as a first-order lag:
 *   drive = reading + lag·d(reading)/dt.
 * Seen that way a step of the fan or of a blade is a step again, the approach to the new level is
 * gone, and turbulence that the rotor has smoothed is nearly white. What is still to come of the
 * approach is the drive's level minus the reading.
 */

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
export function driveOf(values: readonly number[], period_s: number, lag_s: number): number[] {
  const drive: number[] = [];
  const gain = lag_s / period_s;
  for (let i = 1; i < values.length; i++) {
    const now = values[i]!;
    const before = values[i - 1]!;
    drive.push((now + before) / 2 + gain * (now - before));
  }
  return drive;
}

/**
 * The lag of an approach, from the line that reading against rate of change then is; null when
 * the readings since the change span too little for it to show.
 */
export function fitLag(values: readonly number[], period_s: number): number | null {
  const from = Math.round(FAN_S / period_s);
  const n = values.length - 1 - from;
  if (n < 6) return null;
  let meanLevel = 0;
  let meanStep = 0;
  let low = Infinity;
  let high = -Infinity;
  for (let i = from + 1; i < values.length; i++) {
    meanLevel += (values[i]! + values[i - 1]!) / 2 / n;
    meanStep += (values[i]! - values[i - 1]!) / n;
    low = Math.min(low, values[i]!);
    high = Math.max(high, values[i]!);
  }
  if (high - low < LEAST_SPAN * Math.max(Math.abs(high), Math.abs(low))) return null;
  let product = 0;
  let squares = 0;
  for (let i = from + 1; i < values.length; i++) {
    const step = values[i]! - values[i - 1]! - meanStep;
    product += step * ((values[i]! + values[i - 1]!) / 2 - meanLevel);
    squares += step * step;
  }
  const lag_s = (-product / squares) * period_s;
  return lag_s > SHORTEST_S ? Math.min(lag_s, LONGEST_S) : null;
}
