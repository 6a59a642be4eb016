/**
 * A straight line through points whose ordinates have known standard uncertainties.
 *
 *     y = intercept + slope · x,  weights w_i = 1/u_i²
 *
 * Method: weighted least squares; with equal weights it is that of the calibration line in
 * JCGM 100:2008 (GUM), H.3. Sums are taken about the weighted mean of x, which keeps digits.
 *
 * When the points scatter more than their u_i allow (and there are more than two), all
 * uncertainties are raised by the Birge ratio √(χ²/(n − 2)) (R. T. Birge, Phys. Rev. 40 (1932) 207,
 * from memory), so that too rosy a u_i can't make a rosy result. They are never lowered.
 */

export interface LinePoint {
  readonly x: number;
  readonly y: number;
  /** Standard uncertainty of y, independent of the other points'; above 0. */
  readonly u: number;
}

export interface LineFit {
  readonly intercept: number;
  readonly slope: number;
  readonly interceptUncertainty: number;
  readonly slopeUncertainty: number;
  /** Correlation coefficient of intercept and slope. */
  readonly correlation: number;
  /** √(χ²/(n − 2)); null for two points, which any line fits. */
  readonly birgeRatio: number | null;
  /** y − line, in the order of the points. */
  readonly residuals: readonly number[];
}

/** Null where no line is determined: fewer than two different x. */
export function fitLine(points: readonly LinePoint[]): LineFit | null {
  const weights = points.map(({ u }) => 1 / u ** 2);
  const sum = (of: (point: LinePoint) => number): number =>
    points.reduce((total, point, i) => total + (weights[i] ?? 0) * of(point), 0);
  const all = sum(() => 1);
  const middle = sum(({ x }) => x) / all;
  const spread = sum(({ x }) => (x - middle) ** 2);
  if (new Set(points.map(({ x }) => x)).size < 2 || !(spread > 0)) return null;
  const slope = sum(({ x, y }) => (x - middle) * y) / spread;
  const intercept = sum(({ y }) => y) / all - slope * middle;
  const residuals = points.map(({ x, y }) => y - intercept - slope * x);
  const chiSquared = residuals.reduce((total, one, i) => total + (weights[i] ?? 0) * one ** 2, 0);
  const birgeRatio = points.length > 2 ? Math.sqrt(chiSquared / (points.length - 2)) : null;
  const raise = Math.max(birgeRatio ?? 1, 1);
  const interceptVariance = 1 / all + middle ** 2 / spread;
  return {
    intercept,
    slope,
    interceptUncertainty: raise * Math.sqrt(interceptVariance),
    slopeUncertainty: raise / Math.sqrt(spread),
    correlation: -middle / Math.sqrt(spread * interceptVariance),
    birgeRatio,
    residuals,
  };
}
