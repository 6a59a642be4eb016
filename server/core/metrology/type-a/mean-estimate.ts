import type { Estimate } from '../../signal/plateau.ts';
import { autocovarianceOf, meanOf } from './series.ts';

/**
 * Sum of the autocovariances over all lags by the initial monotone positive sequence: sums of
 * neighbouring pairs are added for as long as they are positive, and never allowed to grow
 * (C. J. Geyer, Practical Markov chain Monte Carlo, Statistical Science 7(4), 1992; from memory).
 * Divided by n it is the variance of the mean.
 */
export function longRunVarianceOf(values: ArrayLike<number>): number {
  const n = values.length;
  const mean = meanOf(values);
  const variance = autocovarianceOf(values, 0, mean);
  let total = -variance;
  let ceiling = Infinity;
  for (let lag = 0; lag + 1 < n; lag += 2) {
    const first = lag === 0 ? variance : autocovarianceOf(values, lag, mean);
    const pair = first + autocovarianceOf(values, lag + 1, mean);
    if (pair <= 0) break;
    ceiling = Math.min(ceiling, pair);
    total += 2 * ceiling;
  }
  // A mean subtracted from few readings hides part of their variance: n − 1 for independent ones.
  const inflation = Math.max(total / variance, 1 / n);
  const effective = Math.max(n / inflation, 2);
  return variance > 0 ? (total * effective) / (effective - 1) : 0;
}

/**
 * Mean of autocorrelated readings with its Type A standard uncertainty. `floor` is the least
 * standard uncertainty that the readings' resolution allows (resolution/√12).
 */
export function estimateMean(values: ArrayLike<number>, floor: number): Estimate {
  const n = values.length;
  const mean = meanOf(values);
  const variance = (autocovarianceOf(values, 0, mean) * n) / Math.max(n - 1, 1);
  const longRun = Math.max(longRunVarianceOf(values), 0);
  const effective = longRun > 0 ? Math.min((variance * n) / longRun, n) : n;
  return {
    mean,
    standardUncertainty: Math.max(Math.sqrt(longRun / n), floor),
    degreesOfFreedom: Math.max(effective - 1, 1),
    effectiveSampleSize: Math.max(effective, 1),
  };
}
