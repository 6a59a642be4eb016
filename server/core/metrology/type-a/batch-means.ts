/** The mean of readings that have not settled: what scatters is whole stretches, not readings. */
import type { Estimate } from '../../signal/plateau.ts';
import { meanOf, standardDeviationOf } from './series.ts';

/**
 * Mean of a series cut into batches of one length (but for a reading), each longer than what makes
 * neighbouring readings alike. Its standard uncertainty comes from the scatter of the batches'
 * means (method of batch means: A. M. Law, W. D. Kelton, Simulation Modeling and Analysis; from
 * memory), and from the creep over the whole, of which no more is known than that the value lay
 * within it: a rectangle (JCGM 100:2008, 4.3.7).
 * @param values oldest first, equally spaced
 * @param batchCount at least 3, and no more than there are values
 */
export function estimateFromBatches(values: readonly number[], batchCount: number): Estimate {
  const cutAt = (i: number): number => Math.round((i * values.length) / batchCount);
  const batches = Array.from({ length: batchCount }, (_, i) =>
    meanOf(values.slice(cutAt(i), cutAt(i + 1))),
  );
  const scatter = standardDeviationOf(batches) / Math.sqrt(batchCount);
  const standardUncertainty = Math.hypot(scatter, creepOf(batches) / Math.sqrt(12));
  const spread = standardDeviationOf(values);
  const effective = standardUncertainty > 0 ? (spread / standardUncertainty) ** 2 : batchCount;
  return {
    mean: meanOf(values),
    standardUncertainty,
    degreesOfFreedom: batchCount - 1,
    effectiveSampleSize: Math.min(Math.max(effective, 1), values.length),
  };
}

/** By how much a straight line through the batches changes from their beginning to their end. */
function creepOf(batches: readonly number[]): number {
  const n = batches.length;
  const middle = (n - 1) / 2;
  const slope = batches.reduce((sum, mean, i) => sum + (i - middle) * mean, 0) / ((n ** 3 - n) / 12);
  return Math.abs(slope) * n;
}
