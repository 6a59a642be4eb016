/** The F law: P(F > f) = I_x(ν₂/2, ν₁/2), x = ν₂/(ν₂ + ν₁f) (Abramowitz and Stegun 1964, 26.6.2). */
import { chiSquaredUpperTail } from './chi-squared.ts';
import { checkFreedom, checkProbability } from './domain.ts';
import { incompleteBeta } from './incomplete-beta.ts';
import { tailRoot } from './tail-root.ts';

/** Degrees of freedom of numerator and denominator, above 0, not necessarily whole. */
export interface FFreedom {
  readonly df1: number;
  /** Infinity where the scatter is known. */
  readonly df2: number;
}

/** From here on the denominator is taken as known; its share of the result is below 1e-8. */
const KNOWN_FROM = 1e8;

/**
 * P(F > f); for instance `fUpperTail(4.964, { df1: 1, df2: 10 })` is 0.05.
 * @throws RangeError unless degrees of freedom are above 0
 */
export function fUpperTail(f: number, { df1, df2 }: FFreedom): number {
  checkFreedom(df1, df2);
  if (f <= 0) return 1;
  if (df2 >= KNOWN_FROM) return chiSquaredUpperTail(df1 * f, df1);
  const ratio = (df1 / df2) * f;
  if (ratio === Infinity) return 0;
  return incompleteBeta(1 / (1 + ratio), ratio / (1 + ratio), df2 / 2, df1 / 2).lower;
}

/** The f that is exceeded with this probability. @throws RangeError outside 0 to 1 */
export function fUpperQuantile(tail: number, freedom: FFreedom): number {
  checkProbability(tail);
  return tailRoot((f) => fUpperTail(f, freedom), tail);
}
