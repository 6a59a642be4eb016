import { describe, expect, it } from 'vitest';
import {
  chance,
  createRandom,
  nextUint32,
  normal,
  splitMix64,
  uniform,
  waitingTime_s,
} from '#core/virtual-rig/random.ts';

function draws<T>(count: number, draw: () => T): T[] {
  return Array.from({ length: count }, draw);
}

function momentsOf(values: readonly number[]): { mean: number; variance: number } {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const variance = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length;
  return { mean, variance };
}

describe('xoshiro128**', () => {
  it('gives the reference outputs from the state 1, 2, 3, 4', () => {
    // Made with the authors' xoshiro128starstar.c version 1.1; the same vector stands in the tests
    // of the rand_xoshiro crate (rust-random/rngs).
    const random = { words: Uint32Array.of(1, 2, 3, 4), spareNormal: null };
    expect(draws(10, () => nextUint32(random))).toEqual([
      11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849, 3729100597,
      4258142804,
    ]);
  });
});

describe('SplitMix64', () => {
  it('gives the reference outputs for the seed 1234567', () => {
    // Rosetta Code, "Pseudo-random numbers/Splitmix64".
    expect(splitMix64(1234567n, 5)).toEqual([
      6457827717110365317n,
      3203168211198807973n,
      9817491932198370423n,
      4593380528125082431n,
      16408922859458223821n,
    ]);
  });
});

describe('createRandom', () => {
  it('repeats itself for the same seed and stream only', () => {
    const first = (seed: number, stream: number) => {
      const random = createRandom(seed, stream);
      return draws(4, () => nextUint32(random));
    };
    expect(first(7, 1)).toEqual(first(7, 1));
    expect(first(7, 1)).not.toEqual(first(7, 2));
    expect(first(7, 1)).not.toEqual(first(8, 1));
    expect(first(-7, 1)).not.toEqual(first(7, 1));
  });

  it('refuses a seed that is no whole number', () => {
    expect(() => createRandom(0.5)).toThrow('a seed is a whole number, not 0.5');
    expect(() => createRandom(NaN)).toThrow(RangeError);
  });

  it('keeps streams of one seed uncorrelated', () => {
    const [a, b] = [createRandom(1, 1), createRandom(1, 2)];
    const products = draws(100_000, () => normal(a) * normal(b));
    // Standard error of the mean product of independent standard normals is 1/√n.
    expect(Math.abs(momentsOf(products).mean)).toBeLessThan(4 / Math.sqrt(100_000));
  });
});

describe('deviates', () => {
  it('uniform: in [0, 1), mean 1/2, variance 1/12', () => {
    const random = createRandom(11);
    const values = draws(200_000, () => uniform(random));
    expect(values.every((value) => value >= 0 && value < 1)).toBe(true);
    const { mean, variance } = momentsOf(values);
    expect(mean).toBeCloseTo(0.5, 2);
    expect(variance).toBeCloseTo(1 / 12, 2);
  });

  it('normal: the shares within one, two and three standard deviations', () => {
    const random = createRandom(12);
    const values = draws(200_000, () => normal(random));
    const { mean, variance } = momentsOf(values);
    expect(mean).toBeCloseTo(0, 2);
    expect(variance).toBeCloseTo(1, 1.5);
    // 68.27 %, 95.45 %, 99.73 %: any table of the normal law.
    const within = (limit: number) =>
      values.filter((value) => Math.abs(value) < limit).length / values.length;
    expect(within(1)).toBeCloseTo(0.6827, 2);
    expect(within(2)).toBeCloseTo(0.9545, 2);
    expect(within(3)).toBeCloseTo(0.9973, 2.5);
  });

  it('waiting times: mean one over the rate, and no event at a rate of zero', () => {
    const random = createRandom(13);
    const { mean } = momentsOf(draws(100_000, () => waitingTime_s(random, 4)));
    expect(mean).toBeCloseTo(0.25, 2);
    expect(waitingTime_s(random, 0)).toBe(Infinity);
  });

  it('chance: as often as asked', () => {
    const random = createRandom(14);
    const hits = draws(100_000, () => chance(random, 0.3)).filter(Boolean).length;
    expect(hits / 100_000).toBeCloseTo(0.3, 2);
  });
});
