/** A number that was fitted to readings. */
import { leastSquares, type LeastSquares } from '../../statistics/least-squares.ts';
import { studentTQuantile } from '../../statistics/student-t.ts';

export interface Fitted {
  readonly value: number;
  /** From the scatter about the fit; null where there is none, or no reading to spare. */
  readonly standardUncertainty: number | null;
  readonly degreesOfFreedom: number;
}

export interface FittedColumns {
  readonly rank: number;
  /** Coefficients of the columns, each with its standard error. */
  readonly fitted: readonly Fitted[];
  /** Of any sum of the coefficients with these weights. */
  sum(weights: readonly number[]): Fitted;
}

/** Below this share of all squares, what the fit leaves is rounding. */
const ROUNDING = 1e-20;

export function fitColumns(
  columns: readonly (readonly number[])[],
  y: readonly number[],
): FittedColumns {
  const fit = leastSquares(columns, y);
  const all = y.reduce((total, one) => total + one ** 2, 0);
  // Readings exactly on a line, as worked out or of too few digits, don't show how they scatter.
  const isExact = fit.residualSquares <= ROUNDING * all;
  const sum = (weights: readonly number[]): Fitted => ({
    value: weights.reduce((total, weight, i) => total + weight * fit.coefficients[i]!, 0),
    standardUncertainty: isExact ? null : standardError(fit, weights),
    degreesOfFreedom: fit.residualFreedom,
  });
  const unit = (place: number): number[] => columns.map((_, j) => Number(place === j));
  return { rank: fit.rank, fitted: columns.map((_, i) => sum(unit(i))), sum };
}

function standardError(fit: LeastSquares, weights: readonly number[]): number | null {
  if (fit.residualFreedom < 1) return null;
  const variance = fit.residualSquares / fit.residualFreedom;
  return Math.sqrt(variance * fit.covariance(weights, weights));
}

/**
 * The standard deviation of a normal law with the same 95 % interval: few readings to spare make
 * Student's t wide, and who draws from a normal law must not lose that. Null where it is not known.
 */
export function asNormal({ standardUncertainty, degreesOfFreedom }: Fitted): number | null {
  if (standardUncertainty === null) return null;
  const normal = studentTQuantile(0.975, Infinity);
  return (standardUncertainty * studentTQuantile(0.975, degreesOfFreedom)) / normal;
}

/** A figure that is off by as much as this share of itself is hardly one. */
const VAGUE = 0.25;

/** Its 95 % interval is wide. */
export function isVague(fitted: Fitted): boolean {
  const spread = asNormal(fitted);
  return spread !== null && 2 * spread > VAGUE * Math.abs(fitted.value);
}
