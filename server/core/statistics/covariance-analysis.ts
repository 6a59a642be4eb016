/**
 * Analysis of covariance: groups compared as they would be if something that was not held constant
 * had been the same in all: one mean for each group and one slope common to all (G. W. Snedecor,
 * W. G. Cochran, Statistical Methods, 14.2, from memory). Whether slopes are alike it does not ask.
 *
 *     groups [0, 0, 1, 1], x [1, 2, 3, 4], y [2, 3, 5, 6] → slope 1, adjusted means [4, 5]
 */
import { fUpperTail } from './f.ts';
import { leastSquares } from './least-squares.ts';
import { studentTUpperTail } from './student-t.ts';

export interface CovarianceAnalysis {
  /** Change of y with each unit of x. */
  readonly slope: number;
  readonly slopeUncertainty: number;
  /** That x is of no account. */
  readonly slopeP: number;
  /** That the groups are alike at the same x. */
  readonly f: number;
  readonly dfBetween: number;
  readonly dfWithin: number;
  readonly p: number;
  /** The mean of x, at which the groups are compared. */
  readonly at: number;
  /** By group; standard uncertainties with `dfWithin` degrees of freedom. */
  readonly adjusted: readonly { readonly mean: number; readonly standardUncertainty: number }[];
}

interface Observed {
  /** Place of its group, from 0 without gaps. */
  readonly group: number;
  readonly x: number;
  readonly y: number;
}

/** Null where it can't be told: one group, no degree of freedom left, x or y without scatter. */
export function covarianceAnalysis(observed: readonly Observed[]): CovarianceAnalysis | null {
  const count = Math.max(0, ...observed.map(({ group }) => group + 1));
  const [n, dfBetween] = [observed.length, count - 1];
  const dfWithin = n - count - 1;
  if (dfBetween < 1 || dfWithin < 1) return null;
  const at = observed.reduce((sum, { x }) => sum + x, 0) / n;
  const x = observed.map((one) => one.x - at);
  const y = observed.map((one) => one.y);
  const groups = Array.from({ length: count }, (_, place) =>
    observed.map(({ group }) => (group === place ? 1 : 0)),
  );
  const full = leastSquares([...groups, x], y);
  const alike = leastSquares([y.map(() => 1), x], y);
  const variance = full.residualSquares / dfWithin;
  const scale = y.reduce((sum, one) => sum + one ** 2, 0);
  // Less is rounding.
  const hasScatter = full.residualSquares > 1e-24 * scale;
  if (full.rank <= count || !hasScatter) return null;
  const unit = (place: number): number[] => [...groups, x].map((_, i) => (i === place ? 1 : 0));
  const uncertainty = (place: number): number =>
    Math.sqrt(variance * full.covariance(unit(place), unit(place)));
  const slope = full.coefficients[count] ?? NaN;
  const slopeUncertainty = uncertainty(count);
  const f = (alike.residualSquares - full.residualSquares) / dfBetween / variance;
  if (!Number.isFinite(f) || !(slopeUncertainty > 0)) return null;
  return {
    slope,
    slopeUncertainty,
    slopeP: 2 * studentTUpperTail(Math.abs(slope) / slopeUncertainty, dfWithin),
    f,
    dfBetween,
    dfWithin,
    p: fUpperTail(Math.max(f, 0), { df1: dfBetween, df2: dfWithin }),
    at,
    adjusted: groups.map((_, place) => ({
      mean: full.coefficients[place] ?? NaN,
      standardUncertainty: uncertainty(place),
    })),
  };
}
