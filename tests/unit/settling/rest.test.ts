/** The start of a zero: what a rotor gives while it runs down is none of it. */
import { describe, expect, it } from 'vitest';
import type { Block } from '#core/signal/settling/block.ts';
import { restOf, STILL_WINDOW_S } from '#core/signal/settling/rest.ts';
import { createRandom, normal } from '#core/virtual-rig/random.ts';
import { eventsOf, levels, plateausOf, rigSamples } from './bench-rig.ts';

const PERIOD_S = 0.2;
const blocksOf = (voltages: readonly number[]): Block[] =>
  voltages.map((voltage_V, i) => ({
    start_s: i * PERIOD_S,
    end_s: (i + 1) * PERIOD_S,
    sampleCount: 10,
    means: [voltage_V, 0, 0, 4, 0],
    gusts: { meanCube_m3ps3: 64, changes: 1 },
  }));
const startOf = (voltages: readonly number[]): number => restOf(blocksOf(voltages))[0]!.start_s;
const zeros = (count: number): number[] => Array.from({ length: count }, () => 0);

describe('the start of a zero', () => {
  it('comes once the voltage has stopped falling, however the rotor ran down', () => {
    const lagging = Array.from({ length: 20 }, (_, i) => 0.04 * Math.exp((-i * PERIOD_S) / 0.8));
    const rubbing = Array.from({ length: 15 }, (_, i) => 0.04 * (1 - i / 15));
    for (const falling of [lagging, rubbing, lagging.map((voltage_V) => -voltage_V)]) {
      const kept = restOf(blocksOf([...falling, ...zeros(60)]));
      expect(Math.abs(kept[0]!.means[0]!)).toBeLessThan(0.002);
      expect(kept.length).toBeGreaterThanOrEqual(60);
    }
  });

  it('is where it was where nothing falls: zeros, an offset, a step that flickers, noise', () => {
    expect(startOf(zeros(60))).toBe(0);
    expect(startOf(zeros(60).fill(0.0123))).toBe(0);
    expect(startOf(zeros(60).map((_, i) => (i % 7 === 2 ? 0.004 : 0)))).toBe(0);
    const random = createRandom(5);
    const runs = Array.from({ length: 200 }, () => startOf(zeros(60).map(() => 0.001 * normal(random))));
    expect(runs.filter((start_s) => start_s > 0).length).toBeLessThan(10);
  });

  it('leaves as much as a zero needs, and the gaps where no voltage was read', () => {
    const falling = Array.from({ length: 30 }, (_, i) => 0.04 * (1 - i / 30));
    expect(restOf(blocksOf(falling)).length * PERIOD_S).toBeCloseTo(STILL_WINDOW_S, 9);
    expect(startOf([NaN, NaN, ...zeros(40)])).toBe(0);
    expect(startOf(zeros(40).fill(NaN))).toBe(0);
  });
});

describe('a blade that stops in the wind', () => {
  it('gives a zero that its slow run-down is no part of', () => {
    const drive_V = levels([4, 0], [30, 3], [Infinity, 0]);
    const samples = rigSamples({ seconds: 60, lag_s: 2, drive_V, wind_mps: () => 4 });
    const zero = plateausOf(eventsOf(samples)).at(-1)!;
    expect(zero.rotorStill).toBe(true);
    // 3 V·exp(−t/2 s) is under 2 %, and called still, 8 s after; it falls to 1 mV in 8 s more.
    expect(zero.start_s).toBeGreaterThan(42);
    expect(Math.abs(zero.estimates.voltage_V!.mean)).toBeLessThan(3e-4);
  });
});
