/**
 * Root of a continuous function that changes its sign between `low` and `high`, by the Illinois
 * form of false position (Dowell and Jarratt, BIT 11, 1971; from memory). Where the sign is the
 * same at both ends, the end with the smaller value.
 * @param tolerance width of the interval that is close enough, relative to `high`
 */
export function rootBetween(
  low: number,
  high: number,
  f: (x: number) => number,
  tolerance = 1e-12,
): number {
  return rootInside({ low, high, atLow: f(low), atHigh: f(high) }, f, tolerance);
}

export interface Bracket {
  readonly low: number;
  readonly high: number;
  /** The function there. */
  readonly atLow: number;
  readonly atHigh: number;
}

/** The same where the function's values at both ends are known already. */
export function rootInside(
  { low, high, atLow, atHigh }: Bracket,
  f: (x: number) => number,
  tolerance = 1e-12,
): number {
  let [a, b] = [low, high];
  let [fa, fb] = [atLow, atHigh];
  if (fa * fb > 0) return Math.abs(fa) < Math.abs(fb) ? low : high;
  for (let i = 0; i < 100 && fb !== 0 && Math.abs(b - a) > tolerance * Math.abs(high); i++) {
    const x = b - (fb * (b - a)) / (fb - fa);
    const fx = f(x);
    if (fx * fb <= 0) [a, fa] = [b, fb];
    else fa /= 2;
    [b, fb] = [x, fx];
  }
  return b;
}
