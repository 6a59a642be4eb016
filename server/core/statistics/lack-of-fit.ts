/**
 * Does a curve miss the means of repeated points by more than these scatter (NIST/SEMATECH
 * e-Handbook, 4.4.4.6)?
 */
import { fUpperTail } from './f.ts';
import type { Moments } from './groups.ts';

export interface LackOfFit {
  readonly f: number;
  readonly dfLack: number;
  readonly dfPure: number;
  readonly p: number;
}

/**
 * Null where nothing can be tested: no repeated points, no scatter among them, or as many
 * coefficients as places.
 * @param groups the points at each place
 * @param fit what is left of the curve through all of them
 */
export function lackOfFit(
  groups: readonly Moments[],
  fit: { readonly residualSquares: number; readonly residualFreedom: number },
): LackOfFit | null {
  const dfPure = groups.reduce((sum, { count }) => sum + count - 1, 0);
  const pure = groups.reduce((sum, { squares }) => sum + squares, 0);
  const dfLack = fit.residualFreedom - dfPure;
  if (dfPure < 1 || dfLack < 1 || !(pure > 0)) return null;
  const f = Math.max(0, fit.residualSquares - pure) / dfLack / (pure / dfPure);
  return { f, dfLack, dfPure, p: fUpperTail(f, { df1: dfLack, df2: dfPure }) };
}
