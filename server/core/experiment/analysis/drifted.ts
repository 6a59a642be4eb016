/** How far power has crept from the first trial to the last, where that can be told from chance. */
import { meanOf } from '../../metrology/type-a/series.ts';
import { ALPHA } from '../../statistics/groups.ts';
import type { Comparison } from '../comparison/comparison-schema.ts';
import type { Residual } from './residuals.ts';

export interface Crept {
  /** From the first trial to the last; falling power is negative. */
  readonly change_W: number;
  /** Of the mean power. */
  readonly share: number;
  readonly p: number;
}

/** Null where no drift shows, which is not to say that there is none. */
export function creptIn(
  { drift }: Pick<Comparison, 'drift'>,
  residuals: readonly Residual[],
): Crept | null {
  if (drift === null || !(drift.p < ALPHA)) return null;
  const orders = residuals.map(({ order }) => order);
  const change_W = drift.slope * (Math.max(...orders) - Math.min(...orders));
  const mean_W = meanOf(residuals.map(({ power_W }) => power_W));
  return mean_W > 0 ? { change_W, share: change_W / mean_W, p: drift.p } : null;
}
