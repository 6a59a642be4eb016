/** The χ² law: P(X > x) = Q(ν/2, x/2) (Abramowitz and Stegun 1964, 26.4.19). */
import { checkFreedom, checkProbability } from './domain.ts';
import { incompleteGamma } from './incomplete-gamma.ts';
import { tailRoot } from './tail-root.ts';

/**
 * P(X > x); for instance `chiSquaredUpperTail(3.841, 1)` is 0.05.
 * @throws RangeError unless degrees of freedom are above 0
 */
export function chiSquaredUpperTail(x: number, degreesOfFreedom: number): number {
  checkFreedom(degreesOfFreedom);
  return incompleteGamma(degreesOfFreedom / 2, x / 2).upper;
}

/** The x that is exceeded with this probability. @throws RangeError outside 0 to 1 */
export function chiSquaredUpperQuantile(tail: number, degreesOfFreedom: number): number {
  checkProbability(tail);
  return tailRoot((x) => chiSquaredUpperTail(x, degreesOfFreedom), tail);
}
