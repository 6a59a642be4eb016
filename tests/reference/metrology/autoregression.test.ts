/**
 * Closed forms of a first-order autoregression: the variance of the mean of n readings is
 * variance/n times (1+φ)/(1−φ) − 2φ(1−φⁿ)/(n(1−φ)²) (any text on time series; values computed
 * from the formula by an independent program).
 */
import { describe, expect, it } from 'vitest';
import { estimateMean, longRunVarianceOf } from '#core/metrology/type-a/mean-estimate.ts';
import { autoregressiveInflation } from '#core/metrology/type-a/series.ts';
import { createRandom, normal } from '#core/virtual-rig/random.ts';

describe('inflation of the variance of a mean', () => {
  it.each([
    [0.5, 100, 2.96],
    [0.9, 100, 17.200048],
    [0.9, 1000, 18.82],
    [0.99, 1000, 179.200855],
    [-0.5, 100, 0.337778],
  ])('φ = %d, n = %d: %d', (phi, n, inflation) => {
    expect(autoregressiveInflation(phi, n)).toBeCloseTo(inflation, 5);
  });

  it('is the sum that it stands for', () => {
    const [phi, n] = [0.7, 40];
    let sum = 1;
    for (let lag = 1; lag < n; lag++) sum += 2 * (1 - lag / n) * phi ** lag;
    expect(autoregressiveInflation(phi, n)).toBeCloseTo(sum, 12);
  });
});

function autoregression(phi: number, n: number, seed: number): number[] {
  const random = createRandom(seed);
  const values: number[] = [];
  let value = normal(random);
  for (let i = 0; i < n; i++) {
    values.push(value);
    value = phi * value + Math.sqrt(1 - phi * phi) * normal(random);
  }
  return values;
}

/** C. J. Geyer, Statistical Science 7(4), 1992; from memory. */
describe('initial monotone positive sequence', () => {
  it.each([0, 0.5, 0.9])('finds the long-run variance (1+φ)/(1−φ) at φ = %d', (phi) => {
    const found = Array.from({ length: 60 }, (_, seed) =>
      longRunVarianceOf(autoregression(phi, 2000, seed)),
    );
    const mean = found.reduce((sum, value) => sum + value, 0) / found.length;
    expect(mean / ((1 + phi) / (1 - phi))).toBeCloseTo(1, 0.7);
  });

  it('covers about as often as it says where the readings are many', () => {
    let covered = 0;
    const runs = 300;
    for (let seed = 0; seed < runs; seed++) {
      const { mean, standardUncertainty } = estimateMean(autoregression(0.9, 1000, seed), 0);
      if (Math.abs(mean) <= 2 * standardUncertainty) covered++;
    }
    // .94 in 2000 runs of an independent program; s/√n would cover .36.
    expect(covered / runs).toBeGreaterThan(0.89);
  });
});
