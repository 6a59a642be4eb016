/**
 * The regularized incomplete gamma function P(a, x) and its complement Q(a, x).
 *
 * The factor x^a·e^−x/Γ(a) in Loader's form (see deviance.ts), times the series of Abramowitz and
 * Stegun 1964, 6.5.29, below a + 1 and the continued fraction of 6.5.31 above.
 */
import { deviance } from './deviance.ts';
import type { Parts } from './incomplete-beta.ts';
import { stirlingRest } from './log-gamma.ts';

const TINY = 1e-300;

/**
 * P(a, x) as `lower` and Q(a, x) as `upper`.
 * @param a above 0
 * @param x from 0 on
 */
export function incompleteGamma(a: number, x: number): Parts {
  if (x <= 0) return { lower: 0, upper: 1 };
  if (x === Infinity) return { lower: 1, upper: 0 };
  const front = Math.sqrt(a / (2 * Math.PI)) * Math.exp(-stirlingRest(a) - deviance(a, x));
  if (x < a + 1) {
    const lower = front * lowerSeries(a, x);
    return { lower, upper: 1 - lower };
  }
  const upper = front * upperFraction(a, x);
  return { lower: 1 - upper, upper };
}

function lowerSeries(a: number, x: number): number {
  let term = 1 / a;
  let sum = term;
  for (let n = 1; term > sum * 1e-17; n++) {
    term *= x / (a + n);
    sum += term;
  }
  return sum;
}

/** By the modified Lentz method. */
function upperFraction(a: number, x: number): number {
  let b = x + 1 - a;
  let c = 1 / TINY;
  let d = 1 / b;
  let fraction = d;
  for (let n = 1; n < 100_000; n++) {
    const numerator = -n * (n - a);
    b += 2;
    d = numerator * d + b;
    d = 1 / (Math.abs(d) < TINY ? TINY : d);
    c = b + numerator / c;
    if (Math.abs(c) < TINY) c = TINY;
    fraction *= c * d;
    if (Math.abs(c * d - 1) < 1e-15) break;
  }
  return fraction;
}
