/**
 * Type A evaluation of repeated readings that do not depend on each other, as a person takes them
 * from a meter (JCGM 100:2008 (GUM), 4.2.1 to 4.2.3, 5.2.3). Samples of a board resemble their
 * neighbours and need mean-estimate.ts.
 */
import type { Component } from '../combine.ts';
import { meanOf } from './series.ts';

/**
 * Standard uncertainty of a mean: u(q̄)² = Σ(q_k − q̄)² / (n(n − 1)), with n − 1 degrees of freedom.
 * Null for one reading, which says nothing of its scatter.
 */
export function scatterOfMean(values: readonly number[]): Component | null {
  if (values.length < 2) return null;
  const u = Math.sqrt(covarianceOfMeans(values, values));
  return { u, degreesOfFreedom: values.length - 1 };
}

/**
 * Covariance of two means whose readings were taken in pairs:
 * u(q̄, r̄) = Σ(q_k − q̄)(r_k − r̄) / (n(n − 1)) (GUM, 5.2.3, equation 17). At least two pairs.
 */
export function covarianceOfMeans(q: readonly number[], r: readonly number[]): number {
  const n = q.length;
  const [meanQ, meanR] = [meanOf(q), meanOf(r)];
  const sum = q.reduce((total, one, k) => total + (one - meanQ) * ((r[k] ?? meanR) - meanR), 0);
  return sum / (n * (n - 1));
}

/**
 * Scatter of the mean of products, q·r for each pair, from means, uncertainties and covariance
 * (GUM, 5.2.2, equation 16): u² = r̄²u²(q̄) + q̄²u²(r̄) + 2 q̄ r̄ u(q̄, r̄). Null for one pair.
 */
export function scatterOfProduct(q: readonly number[], r: readonly number[]): Component | null {
  const n = q.length;
  if (n < 2) return null;
  const [meanQ, meanR] = [meanOf(q), meanOf(r)];
  const variance =
    meanR ** 2 * covarianceOfMeans(q, q) +
    meanQ ** 2 * covarianceOfMeans(r, r) +
    2 * meanQ * meanR * covarianceOfMeans(q, r);
  // Where what one gains the other loses, rounding may leave less than nothing.
  return { u: Math.sqrt(Math.max(variance, 0)), degreesOfFreedom: n - 1 };
}
