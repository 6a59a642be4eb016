/**
 * The mean of a function of S = √(χ²_ν/ν): what an estimated standard deviation, in units of the
 * true one, does to a probability.
 *
 * With s = e^t the density of t is √(ν/π)·exp(−δ(ν/2) − ν/2·(e^2t − 1 − 2t)), δ as in log-gamma.ts.
 * It falls fast on both sides, so that the trapezoid rule has an error that shrinks exponentially
 * with its step (L. N. Trefethen, J. A. C. Weideman, SIAM Review 56 (2014) 385, from memory).
 */
import { stirlingRest } from './log-gamma.ts';

/** Above these degrees of freedom S differs from 1 by less than its effect could be seen. */
const KNOWN_FROM = 1e12;
const WIDEST_STEP = 0.14;
const NEGLIGIBLE = 1e-18;

/**
 * E[of(S)], with the digits that `of` has also where the mean is small.
 * @param of from 0 to 1, not rising
 * @param nu above 0; Infinity gives of(1)
 * @param widestStep smaller where `of` falls steeply, as a share of s
 */
export function scaleExpectation(
  of: (s: number) => number,
  nu: number,
  widestStep = WIDEST_STEP,
): number {
  if (nu >= KNOWN_FROM) return of(1);
  const step = Math.min(widestStep, 0.5 / Math.sqrt(2 * nu));
  const peak = Math.sqrt(nu / Math.PI) * Math.exp(-stirlingRest(nu / 2));
  const density = (t: number): number => peak * Math.exp(-0.5 * nu * (Math.expm1(2 * t) - 2 * t));
  let sum = 0;
  for (let i = 0; ; i++) {
    const weight = density(i * step);
    if (weight < NEGLIGIBLE * peak) break;
    sum += weight * of(Math.exp(i * step));
  }
  for (let i = -1; ; i--) {
    const weight = density(i * step);
    // What is still to come is at most weight/ν.
    if (weight < NEGLIGIBLE * sum * Math.min(1, nu) || weight < 1e-300) break;
    sum += weight * of(Math.exp(i * step));
  }
  return Math.min(1, sum * step);
}
