/** How a count of errors speaks against a share of errors. */
import { incompleteBeta } from '#core/statistics/incomplete-beta.ts';

/** P(X ≤ x) for a binomial X: I_{1−p}(n − x, x + 1) (Abramowitz and Stegun 1964, 26.5.24). */
export function chanceOfSoFew(x: number, n: number, p: number): number {
  return incompleteBeta(1 - p, p, n - x, x + 1).lower;
}
