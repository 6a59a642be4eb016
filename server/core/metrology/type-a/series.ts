/** Plain moments of a series of equally spaced readings. Two passes: exact where it matters. */

/** Arithmetic mean, corrected once by the mean of the residuals. Empty: NaN. */
export function meanOf(values: ArrayLike<number>): number {
  const n = values.length;
  let sum = 0;
  for (let i = 0; i < n; i++) sum += values[i]!;
  const rough = sum / n;
  let rest = 0;
  for (let i = 0; i < n; i++) rest += values[i]! - rough;
  return rough + rest / n;
}

/**
 * Sample standard deviation, denominator n − 1 (JCGM 100:2008, 4.2.2). Fewer than two: NaN.
 * `mean`: that of the values, where it is known already.
 */
export function standardDeviationOf(values: ArrayLike<number>, mean = meanOf(values)): number {
  const n = values.length;
  let squares = 0;
  let rest = 0;
  for (let i = 0; i < n; i++) {
    const deviation = values[i]! - mean;
    squares += deviation * deviation;
    rest += deviation;
  }
  return Math.sqrt((squares - (rest * rest) / n) / (n - 1));
}

/** Sum over i of (x[i] − mean)(x[i+lag] − mean) divided by n. */
export function autocovarianceOf(values: ArrayLike<number>, lag: number, mean: number): number {
  const n = values.length;
  let sum = 0;
  for (let i = 0; i + lag < n; i++) sum += (values[i]! - mean) * (values[i + lag]! - mean);
  return sum / n;
}

/** Lag-1 autocorrelation coefficient, as the NIST univariate reference sets define it. */
export function lagOneAutocorrelationOf(values: ArrayLike<number>): number {
  const mean = meanOf(values);
  return autocovarianceOf(values, 1, mean) / autocovarianceOf(values, 0, mean);
}

/**
 * How many times the variance of the mean of n readings of a first-order autoregression with
 * coefficient phi exceeds variance/n: (1+φ)/(1−φ) − 2φ(1−φⁿ)/(n(1−φ)²), exact.
 */
export function autoregressiveInflation(phi: number, n: number): number {
  return (1 + phi) / (1 - phi) - (2 * phi * (1 - phi ** n)) / (n * (1 - phi) ** 2);
}
