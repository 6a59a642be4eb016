/** What the comparisons of several groups start from. */
import { meanOf } from '../metrology/type-a/series.ts';

export interface Moments {
  readonly count: number;
  /** Counted from the origin. */
  readonly mean: number;
  /** Σ(x − x̄)², by two passes. */
  readonly squares: number;
}

/**
 * @param values at least one
 * @param origin near the values, the same for all groups: a double holds small differences of large
 * means only when they are not added to something large
 */
export function momentsOf(values: readonly number[], origin = 0): Moments {
  const shifted = values.map((value) => value - origin);
  const mean = meanOf(shifted);
  let squares = 0;
  let rest = 0;
  for (const value of shifted) {
    squares += (value - mean) ** 2;
    rest += value - mean;
  }
  // The second term makes up for the rounding of the mean.
  return { count: values.length, mean, squares: Math.max(0, squares - rest ** 2 / values.length) };
}

/** s² of a group. @param moments of at least two values */
export function varianceOf({ count, squares }: Moments): number {
  return squares / (count - 1);
}

/** The difference of two groups, mean(a) − mean(b), with limits that hold for all pairs at once. */
export interface Pair {
  /** Places of the two in the list of groups. */
  readonly a: number;
  readonly b: number;
  readonly difference: number;
  /** Simultaneous limits, 95 %. */
  readonly low: number;
  readonly high: number;
  readonly p: number;
}

/** Every pair once, the later one first. */
export function pairsOf(groups: number): readonly { readonly a: number; readonly b: number }[] {
  return Array.from({ length: groups }, (_, b) =>
    Array.from({ length: groups - b - 1 }, (_, i) => ({ a: b + 1 + i, b })),
  ).flat();
}

/** 1 − the confidence of every interval. */
export const ALPHA = 0.05;
