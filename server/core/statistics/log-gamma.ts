/**
 * The logarithm of the gamma function, and what is left of it beside Stirling's formula.
 *
 * log Γ(x) = (x − ½) log x − x + ½ log 2π + δ(x), with δ(x) ~ 1/12x − 1/360x³ + 1/1260x⁵ − …
 * (Abramowitz and Stegun 1964, 6.1.40 and 6.1.41). Below 16 the series is reached by the recurrence
 * δ(x) = δ(x + 1) + (x + ½) log(1 + 1/x) − 1, which follows from Γ(x + 1) = xΓ(x).
 */

const SERIES_FROM = 16;
const HALF_LOG_TWO_PI = 0.5 * Math.log(2 * Math.PI);

/**
 * δ(x), to 1e-15. Densities are built of it instead of log Γ, whose digits are spent on its size.
 * @param x above 0
 */
export function stirlingRest(x: number): number {
  let rest = 0;
  let large = x;
  for (; large < SERIES_FROM; large++) rest += (large + 0.5) * Math.log1p(1 / large) - 1;
  const r = 1 / large;
  const r2 = r * r;
  const series = r * (1 / 12 - r2 * (1 / 360 - r2 * (1 / 1260 - r2 * (1 / 1680 - r2 / 1188))));
  return rest + series;
}

/** For instance `logGamma(5)` is log 24. @param x above 0 */
export function logGamma(x: number): number {
  return (x - 0.5) * Math.log(x) - x + HALF_LOG_TWO_PI + stirlingRest(x);
}
