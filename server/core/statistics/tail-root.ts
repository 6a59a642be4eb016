/**
 * Where the upper tail of a law is as large as wanted: quantiles without a formula of their own.
 *
 * Bracketed, then by inverse quadratic interpolation kept safe by bisection (T. R. Chandrupatla,
 * Adv. Eng. Softw. 28 (1997) 145, from memory) on the logarithms of both, in which tails are nearly
 * straight.
 */

const CLOSE = 1e-13;

/**
 * The x > 0 with tail(x) = wanted.
 * @param tail falls from above `wanted` near 0 towards 0
 * @param wanted above 0, below 1
 */
export function tailRoot(tail: (x: number) => number, wanted: number): number {
  const excess = (logX: number): number => {
    const probability = tail(Math.exp(logX));
    return probability > 0 ? Math.log(probability / wanted) : -Infinity;
  };
  let [low, high] = [0, 0];
  for (let step = 0.5; excess(high) > 0; step *= 2) {
    low = high;
    high += step;
    if (high > 700) return Infinity;
  }
  for (let step = 0.5; excess(low) < 0; step *= 2) {
    high = low;
    low -= step;
    if (low < -700) return 0;
  }
  return Math.exp(rootBetween(excess, low, high));
}

/** A root of `f`, whose signs at `a` and `b` differ. */
export function rootBetween(f: (x: number) => number, a: number, b: number): number {
  let [x1, x2] = [b, a];
  let [f1, f2] = [f(b), f(a)];
  if (f1 === 0) return x1;
  if (f2 === 0) return x2;
  let share = 0.5;
  for (let round = 0; round < 200; round++) {
    const x = x1 + share * (x2 - x1);
    const value = f(x);
    const [x3, f3] = Math.sign(value) === Math.sign(f1) ? [x1, f1] : [x2, f2];
    if (x3 === x2) [x2, f2] = [x1, f1];
    [x1, f1] = [x, value];
    const [best, bestValue] = Math.abs(f1) < Math.abs(f2) ? [x1, f1] : [x2, f2];
    const least = (CLOSE * (Math.abs(best) + 1)) / Math.abs(x2 - x1);
    if (least > 0.5 || bestValue === 0) return best;
    share = Math.min(1 - least, Math.max(least, nextShare({ x1, x2, x3, f1, f2, f3 })));
  }
  return x1;
}

interface Three {
  readonly x1: number;
  readonly x2: number;
  readonly x3: number;
  readonly f1: number;
  readonly f2: number;
  readonly f3: number;
}

/** How far from x1 to x2 to look next: interpolated where that can be trusted, else the middle. */
function nextShare({ x1, x2, x3, f1, f2, f3 }: Three): number {
  const xi = (x1 - x2) / (x3 - x2);
  const phi = (f1 - f2) / (f3 - f2);
  if (!(phi ** 2 < xi && (1 - phi) ** 2 < 1 - xi)) return 0.5;
  const alpha = (x3 - x1) / (x2 - x1);
  return (f1 / (f1 - f2)) * (f3 / (f3 - f2)) + ((alpha * f1) / (f3 - f1)) * (f2 / (f3 - f2));
}
