/**
 * Student's t distribution.
 *
 * P(|T| > t) = I_x(ν/2, ½) with x = ν/(ν + t²) (Abramowitz and Stegun 1964, 26.7.1).
 */
import { checkFreedom, checkProbability } from './domain.ts';
import { incompleteBeta } from './incomplete-beta.ts';
import { normalUpperTail } from './normal.ts';
import { tailRoot } from './tail-root.ts';

/** Above this the continued fraction is slow and the expansion about the normal law exact enough. */
const MANY_DEGREES = 1e6;

/**
 * P(T > t); the two-sided p of an observed t is twice that of |t|.
 * @param degreesOfFreedom greater than 0, not necessarily whole; Infinity gives the normal law
 * @throws RangeError outside that
 */
export function studentTUpperTail(t: number, degreesOfFreedom: number): number {
  checkFreedom(degreesOfFreedom);
  const nu = degreesOfFreedom;
  if (nu > MANY_DEGREES) return normalUpperTail(asNormal(t, nu));
  // Shares instead of t², which could run out of range.
  const ratio = (t / nu) * t;
  const x = 1 / (1 + ratio);
  const y = ratio === Infinity ? 1 : ratio / (1 + ratio);
  const { lower, upper } = incompleteBeta(x, y, nu / 2, 0.5);
  return t >= 0 ? lower / 2 : 0.5 * (1 + upper);
}

/** The z with nearly the same tail (Abramowitz and Stegun, 26.7.8). */
function asNormal(t: number, nu: number): number {
  if (nu === Infinity) return t;
  return (t * (1 - 1 / (4 * nu))) / Math.sqrt(1 + (t / (2 * nu)) * t);
}

/**
 * The value that T stays below with the given probability; for instance
 * `studentTQuantile(0.975, 9)` is 2.262: the coverage factor for 95 % and nine degrees of freedom.
 * Close to 1 take `-studentTQuantile(q, ν)` of the small rest q instead: it has more digits.
 * @param probability strictly between 0 and 1
 * @param degreesOfFreedom greater than 0, not necessarily whole; Infinity gives the normal law
 * @throws RangeError outside that
 */
export function studentTQuantile(probability: number, degreesOfFreedom: number): number {
  checkProbability(probability);
  checkFreedom(degreesOfFreedom);
  if (probability === 0.5) return 0;
  const tail = Math.min(probability, 1 - probability);
  const t = tailRoot((value) => studentTUpperTail(value, degreesOfFreedom), tail);
  return probability < 0.5 ? -t : t;
}
