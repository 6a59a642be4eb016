import { meanOf, standardDeviationOf } from '../metrology/type-a/series.ts';
import type { Thread } from './plateau.ts';

const THREADS = 24;
/** A slice of fewer block means than this is too short to be drawn as one. */
const BLOCKS_IN_A_SLICE = 2;

/** Mean and standard deviation of a part of the slices. */
function newest(slices: readonly number[], count: number): { level: number; spread: number } {
  const part = slices.slice(-count);
  return { level: meanOf(part), spread: part.length > 1 ? standardDeviationOf(part) : 0 };
}

/**
 * Cuts a window of power into equal slices. A slice is joined when it lies within `tolerance`
 * plus three standard errors of a slice's mean (the spread of the slices in the newest quarter)
 * of that quarter's mean.
 */
export function threadsOf(power_W: readonly number[], tolerance: number): readonly Thread[] {
  const width = Math.max(Math.ceil(power_W.length / THREADS), BLOCKS_IN_A_SLICE);
  const slices: number[] = [];
  for (let at = power_W.length % width; at < power_W.length; at += width) {
    let sum = 0;
    for (let i = at; i < at + width; i++) sum += power_W[i]!;
    slices.push(sum / width);
  }
  const { level, spread } = newest(slices, Math.max(Math.ceil(slices.length / 4), 3));
  const limit = tolerance + 3 * spread;
  return slices.map((slice) => ({ power_W: slice, joined: Math.abs(slice - level) <= limit }));
}
