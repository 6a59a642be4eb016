/** A number that was fitted to readings. */
import { leastSquares, type LeastSquares } from '../../statistics/least-squares.ts';

export interface Fitted {
  readonly value: number;
  /** From the scatter about the fit; null where there are no readings to spare. */
  readonly standardUncertainty: number | null;
  readonly degreesOfFreedom: number;
}

/** Coefficients of the columns, each with its standard error. */
export function fitColumns(
  columns: readonly (readonly number[])[],
  y: readonly number[],
): { readonly rank: number; readonly fitted: readonly Fitted[] } {
  const fit = leastSquares(columns, y);
  const fitted = fit.coefficients.map((value, i) => ({
    value,
    standardUncertainty: standardError(fit, columns.map((_, j) => Number(i === j))),
    degreesOfFreedom: fit.residualFreedom,
  }));
  return { rank: fit.rank, fitted };
}

function standardError(fit: LeastSquares, unit: readonly number[]): number | null {
  if (fit.residualFreedom < 1) return null;
  return Math.sqrt((fit.residualSquares / fit.residualFreedom) * fit.covariance(unit, unit));
}
