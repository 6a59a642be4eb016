/**
 * The regularized incomplete beta function I_x(a, b) and its complement.
 *
 * The factor x^a·y^b/B(a, b), y = 1 − x, in Loader's form (see deviance.ts), times a continued
 * fraction from the side where it converges fast.
 */
import { deviance } from './deviance.ts';
import { stirlingRest } from './log-gamma.ts';

const TINY = 1e-300;

/** Both parts of a whole of 1; the smaller one has all its digits. */
export interface Parts {
  readonly lower: number;
  readonly upper: number;
}

/**
 * I_x(a, b) as `lower` and 1 − I_x(a, b) as `upper`.
 * @param x from 0 to 1
 * @param y 1 − x, given apart because near 1 only one of the two keeps its digits
 * @param a above 0
 * @param b above 0
 */
export function incompleteBeta(x: number, y: number, a: number, b: number): Parts {
  if (x <= 0) return { lower: 0, upper: 1 };
  if (y <= 0) return { lower: 1, upper: 0 };
  const front = betaPower(x, y, a, b);
  if (x < (a + 1) / (a + b + 2)) {
    const lower = front / betaFraction({ x, y, a, b });
    return { lower, upper: 1 - lower };
  }
  const upper = front / betaFraction({ x: y, y: x, a: b, b: a });
  return { lower: 1 - upper, upper };
}

/** x^a·y^b/B(a, b). */
function betaPower(x: number, y: number, a: number, b: number): number {
  const n = a + b;
  const rests = stirlingRest(n) - stirlingRest(a) - stirlingRest(b);
  const away = deviance(a, n * x) + deviance(b, n * y);
  return Math.sqrt((a * b) / (2 * Math.PI * n)) * Math.exp(rests - away);
}

/**
 * By the modified Lentz method, quick for x < (a+1)/(a+b+2); taken two terms at a time with y beside
 * x, so that nothing cancels where x is near 1 (A. R. DiDonato, A. H. Morris, ACM Trans. Math.
 * Softw. 18 (1992) 360, eq. 9; from memory). I_x(a, b) is the factor over it.
 */
function betaFraction({ x, y, a, b }: Arguments): number {
  const nonZero = (value: number): number => (Math.abs(value) < TINY ? TINY : value);
  const denominator = (m: number): number => {
    const rest = ((a + m) * (a * y - b * x + 1 + m * (2 - x))) / (a + 2 * m + 1);
    return m + (m * (b - m) * x) / (a + 2 * m - 1) + rest;
  };
  let fraction = nonZero((a * (a * y - b * x + 1)) / (a + 1));
  let c = fraction;
  let d = 0;
  for (let m = 1; m < 100_000; m++) {
    const share = x / (a + 2 * m - 1);
    const numerator = (a + m - 1) * (a + b + m - 1) * share * (m * (b - m) * share);
    const next = denominator(m);
    d = 1 / nonZero(next + numerator * d);
    c = nonZero(next + numerator / c);
    fraction *= c * d;
    if (Math.abs(c * d - 1) < 1e-15) break;
  }
  return fraction;
}

interface Arguments {
  readonly x: number;
  readonly y: number;
  readonly a: number;
  readonly b: number;
}
