/**
 * What a trial's Type A evaluation says of readings whose uncertainty is known: a first-order
 * autoregression about 2 V, as a rotor of the lag −Δ/ln φ makes of white gusts. The variance of a
 * mean of n such readings is variance/n · [(1+φ)/(1−φ) − 2φ(1−φⁿ)/(n(1−φ)²)] (any text on time
 * series), and n over the bracket is their effective number.
 */
import { describe, expect, it } from 'vitest';
import { autoregressiveInflation } from '#core/metrology/type-a/series.ts';
import type { Estimate } from '#core/signal/plateau.ts';
import { createNoiseMemory, learnNoise, priorOf } from '#core/signal/settling/noise-memory.ts';
import { evaluate } from '#core/signal/settling/record.ts';
import { studentTQuantile } from '#core/statistics/student-t.ts';
import { createRandom, normal, type Random } from '#core/virtual-rig/random.ts';

const PERIOD_S = 0.2;
const LEVEL_V = 2;
const NOISE = 0.02;
const RUNS = 200;
/** How many plateaus the session has seen before the one that is looked at. */
const PLATEAUS_BEFORE = 8;

function autoregression(phi: number, n: number, noise: number, random: Random): number[] {
  const values: number[] = [];
  let value = normal(random);
  for (let i = 0; i < n; i++) {
    values.push(LEVEL_V * (1 + noise * value));
    value = phi * value + Math.sqrt(1 - phi * phi) * normal(random);
  }
  return values;
}

/** The same plateau in many sessions, each of which has seen some before. */
function evaluated(phi: number, n: number, before: number, noise = NOISE): Estimate[] {
  const random = createRandom(7);
  return Array.from({ length: RUNS }, () => {
    const memory = createNoiseMemory();
    const reading = () =>
      evaluate({
        values: autoregression(phi, n, noise, random),
        period_s: PERIOD_S,
        scale: LEVEL_V,
        floor: () => 0,
        lag_s: phi > 0 ? -PERIOD_S / Math.log(phi) : 0,
        memory,
        gusts: null,
        known: null,
      });
    for (let k = 0; k < before; k++) {
      learnNoise(memory, reading().noise, priorOf(memory));
    }
    return reading().estimate;
  });
}

function middleOf(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[values.length >> 1]!;
}

function coverageOf(estimates: readonly Estimate[]): number {
  const covered = estimates.filter(
    ({ mean, standardUncertainty, degreesOfFreedom }) =>
      Math.abs(mean - LEVEL_V) <= studentTQuantile(0.975, degreesOfFreedom) * standardUncertainty,
  );
  return covered.length / estimates.length;
}

describe.each([
  [0, 60],
  [0.5, 60],
  [0.9, 150],
  [0.97, 300],
])('autoregression of φ = %d, %d readings', (phi, n) => {
  const inflation = autoregressiveInflation(phi, n);
  const u = LEVEL_V * NOISE * Math.sqrt(inflation / n);
  const estimates = evaluated(phi, n, PLATEAUS_BEFORE);

  it('has about the standard uncertainty of the closed form, and rather more than less', () => {
    const ratio = middleOf(estimates.map((one) => one.standardUncertainty)) / u;
    expect(ratio).toBeGreaterThan(0.9);
    expect(ratio).toBeLessThan(1.4);
  });

  it('has about its effective sample size', () => {
    const ratio = (middleOf(estimates.map((one) => one.effectiveSampleSize)) * inflation) / n;
    expect(ratio).toBeGreaterThan(0.5);
    expect(ratio).toBeLessThan(1.1);
  });

  it('has a 95 % interval that covers at least so often; s/√n would not', () => {
    expect(coverageOf(estimates)).toBeGreaterThan(0.92);
    if (phi < 0.9) return;
    const naive = (LEVEL_V * NOISE * 1.96) / Math.sqrt(n);
    const within = estimates.filter(({ mean }) => Math.abs(mean - LEVEL_V) <= naive);
    expect(within.length / RUNS).toBeLessThan(0.5);
  });
});

describe('what a session has taught', () => {
  it('makes the interval of a short plateau on a quiet rig narrower, without covering too seldom', () => {
    const width = ({ standardUncertainty, degreesOfFreedom }: Estimate) =>
      studentTQuantile(0.975, degreesOfFreedom) * standardUncertainty;
    const [fresh, taught] = [0, PLATEAUS_BEFORE].map((before) => evaluated(0.9, 40, before, NOISE / 10));
    expect(middleOf(taught!.map(width))).toBeLessThan(0.85 * middleOf(fresh!.map(width)));
    expect(coverageOf(taught!)).toBeGreaterThan(0.92);
  });
});
