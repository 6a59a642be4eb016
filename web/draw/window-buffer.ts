/** The last minute of samples, in fixed typed arrays. */
import type { Samples } from '#core/live-messages.ts';

export const WINDOW_S = 60;
/** A minute at 1 kHz and some. */
const CAPACITY = 65_536;

export const CURVES = ['voltage_V', 'current_A', 'windSpeed_mps', 'power_W'] as const;
export type Curve = (typeof CURVES)[number];

/** A ring: the sample `i` places after the oldest is at `(start + i) % CAPACITY`; NaN: missing. */
export interface WindowBuffer {
  readonly time_s: Float64Array;
  readonly columns: Readonly<Record<Curve, Float64Array>>;
  start: number;
  length: number;
}

export function createWindowBuffer(): WindowBuffer {
  const column = (): Float64Array => new Float64Array(CAPACITY);
  return {
    time_s: column(),
    columns: {
      voltage_V: column(),
      current_A: column(),
      windSpeed_mps: column(),
      power_W: column(),
    },
    start: 0,
    length: 0,
  };
}

export function clearBuffer(buffer: WindowBuffer): void {
  buffer.start = 0;
  buffer.length = 0;
}

/** Position in the arrays of the i-th sample, oldest first. */
export function slotOf(buffer: WindowBuffer, i: number): number {
  return (buffer.start + i) % CAPACITY;
}

export function newestTime_s(buffer: WindowBuffer): number | null {
  return buffer.length === 0 ? null : (buffer.time_s[slotOf(buffer, buffer.length - 1)] ?? null);
}

/**
 * Appends samples in order of time and lets go of what is older than the window. A sample not
 * after the newest one is a repetition (a snapshot overlaps what came before) and is left out.
 */
export function appendSamples(buffer: WindowBuffer, samples: Samples): void {
  let newest = newestTime_s(buffer) ?? -Infinity;
  samples.time_s.forEach((time_s, i) => {
    if (time_s <= newest) return;
    newest = time_s;
    if (buffer.length === CAPACITY) dropOldest(buffer);
    const slot = slotOf(buffer, buffer.length);
    buffer.length += 1;
    const voltage = samples.voltage_V[i] ?? NaN;
    const current = samples.current_A[i] ?? NaN;
    buffer.time_s[slot] = time_s;
    buffer.columns.voltage_V[slot] = voltage;
    buffer.columns.current_A[slot] = current;
    buffer.columns.windSpeed_mps[slot] = samples.windSpeed_mps[i] ?? NaN;
    buffer.columns.power_W[slot] = voltage * current;
  });
  while (buffer.length > 0 && (buffer.time_s[buffer.start] ?? 0) < newest - WINDOW_S - 1) {
    dropOldest(buffer);
  }
}

function dropOldest(buffer: WindowBuffer): void {
  buffer.start = slotOf(buffer, 1);
  buffer.length -= 1;
}

const LEVELS = 5;
/** Length of one recent mean, s. */
const LEVEL_S = 0.3;

/** Means of a curve over the newest five stretches of 0.3 s, oldest first; empty ones left out. */
export function recentLevels(buffer: WindowBuffer, curve: Curve): readonly number[] {
  const newest_s = newestTime_s(buffer);
  if (newest_s === null) return [];
  const column = buffer.columns[curve];
  const sums = Array.from({ length: LEVELS }, () => ({ sum: 0, count: 0 }));
  for (let i = buffer.length - 1; i >= 0; i--) {
    const slot = slotOf(buffer, i);
    const age = Math.floor((newest_s - (buffer.time_s[slot] ?? 0)) / LEVEL_S);
    const part = sums[LEVELS - 1 - age];
    if (part === undefined) break;
    const value = column[slot] ?? NaN;
    if (Number.isNaN(value)) continue;
    part.sum += value;
    part.count += 1;
  }
  return sums.filter(({ count }) => count > 0).map(({ sum, count }) => sum / count);
}
