/**
 * The mean of repeated results, with an interval that holds the true mean in 95 of 100 series.
 *
 * x̄ ± t(0.975, n − 1)·s/√n, with s² = Σ(x − x̄)²/(n − 1) (NIST/SEMATECH e-Handbook of Statistical
 * Methods, 1.3.5.2); for instance 1, 2 and 3 give 2 ± 2.48.
 */
import { meanOf, standardDeviationOf } from '../metrology/type-a/series.ts';
import { studentTQuantile } from './student-t.ts';

export interface MeanInterval {
  readonly mean: number;
  /** Half of the 95 % interval; null for fewer than two values, which tell nothing of their scatter. */
  readonly halfWidth: number | null;
  readonly count: number;
}

/** @param values in one unit, each from a setting of its own; at least one */
export function meanInterval(values: readonly number[]): MeanInterval {
  const count = values.length;
  const mean = meanOf(values);
  if (count < 2) return { mean, halfWidth: null, count };
  const standardError = standardDeviationOf(values) / Math.sqrt(count);
  return { mean, halfWidth: studentTQuantile(0.975, count - 1) * standardError, count };
}
