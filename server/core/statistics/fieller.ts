/**
 * Limits of a ratio of two estimates (E. C. Fieller, J. R. Stat. Soc. B 16 (1954) 175, from
 * memory): all ρ for which a − ρb lies within t standard errors of 0. Exact for normal estimates,
 * also where they are not symmetric.
 */

export interface RatioOf {
  readonly a: number;
  readonly b: number;
  readonly varianceA: number;
  readonly varianceB: number;
  readonly covariance: number;
  /** Student's factor of the wanted confidence. */
  readonly factor: number;
}

export interface RatioLimits {
  /** (t·u(b)/b)²; from 1 on b can't be told from 0, and the ratio has no limits. */
  readonly g: number;
  /** Null where there are none. */
  readonly limits: { readonly low: number; readonly high: number } | null;
}

export function ratioLimits(of: RatioOf): RatioLimits {
  const { a, b, varianceA, varianceB, covariance, factor } = of;
  const t2 = factor ** 2;
  const g = b === 0 ? Infinity : (t2 * varianceB) / b ** 2;
  if (!(g < 1)) return { g, limits: null };
  // (b² − t²v_b)ρ² − 2(ab − t²c)ρ + (a² − t²v_a) = 0
  const square = b ** 2 - t2 * varianceB;
  const middle = (a * b - t2 * covariance) / square;
  const constant = (a ** 2 - t2 * varianceA) / square;
  const half = Math.sqrt(Math.max(0, middle ** 2 - constant));
  return { g, limits: { low: middle - half, high: middle + half } };
}
