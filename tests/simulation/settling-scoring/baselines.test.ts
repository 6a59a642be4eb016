import { describe, expect, it } from 'vitest';
import { createRandom, normal } from '#core/virtual-rig/random.ts';
import type { Sample } from '#core/signal/sample.ts';
import { rollingDeviationMethod } from '../../bench/settling/baselines/rolling-deviation.ts';
import { slopeMethod } from '../../bench/settling/baselines/slope.ts';
import { createRatioFilter } from '../../bench/settling/baselines/variance-ratio.ts';
import { estimateInterval } from '../../bench/settling/estimate-interval.ts';
import type { Recording } from '../../bench/settling/recording.ts';
import { quantile } from '../../bench/settling/score.ts';

function ratios(filter: number, share: number, phi: number, count: number): number[] {
  const random = createRandom(21);
  const after = createRatioFilter({ filter, varianceFilter: share, differenceFilter: share });
  const values: number[] = [];
  let x = 0;
  for (let i = 0; i < count; i++) {
    x = phi * x + normal(random);
    const ratio = after(x);
    if (i > 1000 && ratio !== undefined) values.push(ratio);
  }
  return values;
}

describe('filtered variance ratio', () => {
  // Quantiles for white noise from an independent Monte Carlo run of a million samples.
  it.each([
    [0.2, 0.1, 0.771, 0.999, 1.434],
    [0.1, 0.05, 0.809, 0.998, 1.307],
  ])('has its known quantiles for white noise, λ %d and %d', (filter, share, low, middle, high) => {
    const values = ratios(filter, share, 0, 300_000);
    expect(quantile(values, 0.05)).toBeCloseTo(low, 1.7);
    expect(quantile(values, 0.5)).toBeCloseTo(middle, 1.7);
    expect(quantile(values, 0.95)).toBeCloseTo(high, 1.4);
  });

  // Closed form for AR(1) noise, good to 5 %: a rig at rest looks as if it moved.
  it.each([
    [0.5, 1.67],
    [0.9, 3.57],
  ])('has the mean of AR(1) noise, φ %d: %d', (phi, expected) => {
    const values = ratios(0.2, 0.1, phi, 300_000);
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    expect(Math.abs(mean / expected - 1)).toBeLessThan(0.06);
  });
});

/** One volt from 20 s to 60 s of 80 s, with 0.3 % of white noise, ramps before and after. */
function trapezoid(): Recording {
  const random = createRandom(22);
  const samples: Sample[] = Array.from({ length: 800 }, (_, i) => {
    const time_s = i / 10;
    const clean = Math.min(1, Math.max(0, time_s / 20), Math.max(0, (80 - time_s) / 20));
    return {
      time_s,
      voltage_V: clean * (1 + 0.003 * normal(random)),
      current_A: null,
      windSpeed_mps: null,
      rotorSpeed_radps: null,
    };
  });
  return {
    kind: 'by hand',
    rate_Hz: 10,
    seed: 0,
    duration_s: 80,
    lag_s: 0,
    samples,
    plateaus: [],
    stillInWind: [],
    still: [],
    restless: [],
  };
}

describe('gates', () => {
  it('rolling deviation: finds the flat part, in time', () => {
    const method = rollingDeviationMethod({ name: '', window_s: 4, limit: 0.01 });
    const [plateau, ...rest] = method.find(trapezoid()).plateaus;
    expect(rest).toEqual([]);
    expect(plateau!.declared_s).toBeGreaterThan(20);
    expect(plateau!.declared_s).toBeLessThan(24.1);
    expect(plateau!.end_s).toBeGreaterThan(60);
    expect(plateau!.end_s).toBeLessThan(63);
    expect(plateau!.voltage_V).toBeCloseTo(1, 1.9);
  });

  it('slope equivalence: finds the flat part and not the ramps', () => {
    const test = { kind: 'equivalence', tolerance: 0.05 } as const;
    const [plateau, ...rest] = slopeMethod({ name: '', window_s: 6, test }).find(
      trapezoid(),
    ).plateaus;
    expect(rest).toEqual([]);
    expect(plateau!.declared_s).toBeGreaterThan(21);
    expect(plateau!.declared_s).toBeLessThan(27);
    expect(plateau!.voltage_V).toBeCloseTo(1, 1.9);
  });
});

describe('estimate over an interval', () => {
  it('leaves spikes and dropouts out', () => {
    const { samples } = trapezoid();
    const spoilt = samples.map((sample, i) =>
      i % 37 === 0 ? { ...sample, voltage_V: i % 2 === 0 ? 0 : 1.5 } : sample,
    );
    const estimate = estimateInterval(spoilt, { start_s: 20, end_s: 60 });
    expect(Math.abs(estimate.voltage_V - 1)).toBeLessThan(0.001);
    // 0.3 % of white noise over 400 readings: 0.015 %.
    expect(estimate.standardUncertainty_V).toBeGreaterThan(0.00008);
    expect(estimate.standardUncertainty_V).toBeLessThan(0.0003);
  });
});
