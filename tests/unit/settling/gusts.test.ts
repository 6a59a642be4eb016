/** The mean of v³ that a plateau carries, against the samples themselves. */
import { describe, expect, it } from 'vitest';
import type { Plateau } from '#core/signal/plateau.ts';
import type { Sample } from '#core/signal/sample.ts';
import { createDetector, observe } from '#core/signal/settling/detector.ts';
import { averageNow } from '#core/signal/settling/average.ts';
import { meanCube_m3ps3 } from '#core/rotor/wind/mean-cube.ts';
import { gustsIn, mergeGusts, NO_GUSTS } from '#core/signal/wind-gusts.ts';
import { createRandom, normal } from '#core/virtual-rig/random.ts';
import { eventsOf, plateausOf, rigSamples } from './bench-rig.ts';

/** A wind of 4 m/s whose readings scatter by 12 %, each one new. */
function gusty(seed: number): () => number {
  const random = createRandom(seed);
  return () => 4 * (1 + 0.12 * normal(random));
}

function within(samples: readonly Sample[], { start_s, end_s }: Plateau): number[] {
  return samples
    .filter(({ time_s }) => time_s > start_s - 1e-6 && time_s < end_s - 1e-6)
    .map(({ windSpeed_mps }) => windSpeed_mps ?? NaN);
}

describe('gusts', () => {
  it('are the mean of v³ of the very samples that the plateau’s means are of, at 50 Hz', () => {
    const samples = rigSamples({ seconds: 40, drive_V: () => 3, wind_mps: gusty(3) });
    const [plateau] = plateausOf(eventsOf(samples));
    const winds = within(samples, plateau!);
    expect(plateau!.windGusts!.meanCube_m3ps3 / meanCube_m3ps3(winds)).toBeCloseTo(1, 3);
    const mean = plateau!.estimates.windSpeed_mps!.mean;
    // 1 + 3·TI² for a symmetric law: 1.043.
    expect(plateau!.windGusts!.meanCube_m3ps3 / mean ** 3).toBeCloseTo(1 + 3 * 0.12 ** 2, 1);
    expect(plateau!.windGusts!.readings_Hz).toBeGreaterThan(45);
  });

  it('are reckoned anew for the edge that a look back finds', () => {
    // The fan goes up at 30 s: what the detector took in before it saw that is not of the plateau.
    const wind = gusty(5);
    const up = (time_s: number) => (time_s < 30 ? 1 : 1.5);
    const samples = rigSamples({ seconds: 50, drive_V: (t) => 3 * up(t), wind_mps: (t) => wind() * up(t) });
    const [before] = plateausOf(eventsOf(samples));
    expect(before!.end_s).toBeLessThan(30.5);
    expect(before!.windGusts!.meanCube_m3ps3 / meanCube_m3ps3(within(samples, before!))).toBeCloseTo(1, 3);
  });

  it('stay in bounded memory, and right, however long a plateau lasts', () => {
    const samples = rigSamples({ seconds: 420, rate_Hz: 20, drive_V: () => 3, wind_mps: gusty(7) });
    const longest = plateausOf(eventsOf(samples)).reduce((a, b) => (b.sampleCount > a.sampleCount ? b : a));
    // Blocks of a fifth of a second: more than the 600 that are kept.
    expect(longest.end_s - longest.start_s).toBeGreaterThan(130);
    expect(longest.windGusts!.meanCube_m3ps3 / meanCube_m3ps3(within(samples, longest))).toBeCloseTo(1, 3);
    expect(longest.windGusts!.readings_Hz).toBeCloseTo(20, 0);
  });

  it('of a counter that holds its counts for half a second come at two readings a second', () => {
    const random = createRandom(9);
    let held = 4;
    const counted = (time_s: number) => {
      if (Math.round(time_s * 50) % 25 === 0) held = 4 * (1 + 0.03 * normal(random));
      return held;
    };
    const [plateau] = plateausOf(eventsOf(rigSamples({ seconds: 30, drive_V: () => 3, wind_mps: counted })));
    expect(plateau!.windGusts!.readings_Hz).toBeCloseTo(2, 0);
  });

  it('are not there without a wind meter, and are there where somebody logs by hand', () => {
    const [plateau] = plateausOf(eventsOf(rigSamples({ seconds: 30, drive_V: () => 3 })));
    expect(plateau).not.toHaveProperty('windGusts');
    const detector = createDetector(null);
    for (const sample of rigSamples({ seconds: 12, drive_V: () => 3, wind_mps: gusty(2) })) observe(detector, sample);
    expect(averageNow(detector, 'now', -Infinity)?.windGusts?.readings_Hz).toBeGreaterThan(45);
  });

  it('leave out what was not read', () => {
    const read = { meanCube_m3ps3: 64, changes: 3 };
    expect(mergeGusts([read, NO_GUSTS, { meanCube_m3ps3: 70, changes: 1 }])).toEqual({ meanCube_m3ps3: 67, changes: 4 });
    expect(gustsIn([NO_GUSTS, NO_GUSTS], 1)).toBeUndefined();
    expect(gustsIn([read], 0)).toBeUndefined();
  });
});
