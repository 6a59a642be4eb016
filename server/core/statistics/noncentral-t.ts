/**
 * The noncentral t law: (Z + δ)/S, S² = χ²_ν/ν; what t becomes when two means do differ by δ
 * standard errors. P(T > t) is the mean of P(Z > tS − δ) over S.
 */
import { checkFreedom } from './domain.ts';
import { normalUpperTail } from './normal.ts';
import { scaleExpectation } from './scale-expectation.ts';

/**
 * P(T > t), absolute error below 1e-12.
 * @throws RangeError unless degrees of freedom are above 0
 */
export function noncentralTUpperTail(t: number, degreesOfFreedom: number, delta: number): number {
  checkFreedom(degreesOfFreedom);
  // Below 0 the other tail is the one that does not rise with S.
  if (t < 0) return 1 - noncentralTUpperTail(-t, degreesOfFreedom, -delta);
  const widestStep = 0.4 / (3 + Math.abs(delta));
  return scaleExpectation((s) => normalUpperTail(t * s - delta), degreesOfFreedom, widestStep);
}
