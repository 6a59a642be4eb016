/** Least and most value in each pixel column: what a curve needs at any sample rate. */
import { slotOf, WINDOW_S, type Curve, type WindowBuffer } from './window-buffer.ts';

/** A stretch of stream time. */
export interface Stretch {
  readonly from_s: number;
  readonly to_s: number;
}

/** What a chart draws: times, the curve, and the curve again where it was settled (else null). */
export interface CurveData {
  readonly time_s: number[];
  readonly all: (number | null)[];
  readonly settled: (number | null)[];
}

/**
 * Reduces the last minute before `now_s` to at most two points a column. Columns lie on a fixed
 * grid of stream time, so that they do not shimmer as the window moves on. A pause longer than
 * `gap_s`, and a missing reading, leave a gap (`null`), never a bridge.
 */
export function reduceToColumns(
  buffer: WindowBuffer,
  curve: Curve,
  drawn: { now_s: number; columns: number; gap_s: number; stretches: readonly Stretch[] },
): CurveData {
  const { now_s, columns, gap_s, stretches } = drawn;
  const values = buffer.columns[curve];
  const width_s = WINDOW_S / Math.max(columns, 1);
  const out: CurveData = { time_s: [], all: [], settled: [] };
  const column = createColumn();
  let previous_s = NaN;
  for (let i = 0; i < buffer.length; i++) {
    const slot = slotOf(buffer, i);
    const time_s = buffer.time_s[slot] ?? NaN;
    if (time_s < now_s - WINDOW_S || time_s > now_s) continue;
    const value = values[slot] ?? NaN;
    const index = Math.floor(time_s / width_s);
    const broken = time_s - previous_s > gap_s || Number.isNaN(value);
    if (index !== column.index || broken) emit(column, out, stretches);
    if (broken) pushGap(out, time_s);
    previous_s = time_s;
    column.index = index;
    if (!Number.isNaN(value)) take(column, time_s, value);
  }
  emit(column, out, stretches);
  return out;
}

/** The column being filled: its extremes, where each was, and the newest value. */
interface Column {
  index: number;
  count: number;
  low: number;
  low_s: number;
  high: number;
  high_s: number;
}

function createColumn(): Column {
  return { index: NaN, count: 0, low: 0, low_s: 0, high: 0, high_s: 0 };
}

function take(column: Column, time_s: number, value: number): void {
  if (column.count === 0 || value < column.low) {
    column.low = value;
    column.low_s = time_s;
  }
  if (column.count === 0 || value > column.high) {
    column.high = value;
    column.high_s = time_s;
  }
  column.count += 1;
}

function emit(column: Column, out: CurveData, stretches: readonly Stretch[]): void {
  if (column.count === 0) return;
  const { low, low_s, high, high_s } = column;
  if (low_s === high_s) pushPoint(out, low_s, low, stretches);
  else if (low_s < high_s) {
    pushPoint(out, low_s, low, stretches);
    pushPoint(out, high_s, high, stretches);
  } else {
    pushPoint(out, high_s, high, stretches);
    pushPoint(out, low_s, low, stretches);
  }
  column.count = 0;
}

function pushPoint(
  out: CurveData,
  time_s: number,
  value: number,
  stretches: readonly Stretch[],
): void {
  const isSettled = stretches.some(({ from_s, to_s }) => from_s <= time_s && time_s <= to_s);
  out.time_s.push(time_s);
  out.all.push(value);
  out.settled.push(isSettled ? value : null);
}

function pushGap(out: CurveData, time_s: number): void {
  if (out.all.at(-1) === null || out.all.length === 0) return;
  out.time_s.push(time_s);
  out.all.push(null);
  out.settled.push(null);
}

/** Least and most reading within the last minute; null when there is none. */
export function extentOf({ all }: CurveData): { least: number; most: number } | null {
  let least = Infinity;
  let most = -Infinity;
  for (const value of all) {
    if (value === null) continue;
    least = Math.min(least, value);
    most = Math.max(most, value);
  }
  return least <= most ? { least, most } : null;
}
