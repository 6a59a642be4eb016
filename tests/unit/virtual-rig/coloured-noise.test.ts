import { describe, expect, it } from 'vitest';
import { advanceColouredNoise, createColouredNoise } from '#core/virtual-rig/coloured-noise.ts';
import { createRandom } from '#core/virtual-rig/random.ts';

function seriesOf(step_s: number, length_s: number, seed: number): number[] {
  const random = createRandom(seed);
  const noise = createColouredNoise(
    { standardDeviation: 2, correlationTime_s: 0.5 },
    step_s,
    random,
  );
  return Array.from({ length: Math.round(length_s / step_s) }, () => {
    advanceColouredNoise(noise, random);
    return noise.value;
  });
}

function autocovariance(values: readonly number[], lag: number): number {
  let sum = 0;
  for (let i = 0; i + lag < values.length; i++) sum += values[i]! * values[i + lag]!;
  return sum / (values.length - lag);
}

describe('coloured noise', () => {
  // Closed form for the Ornstein-Uhlenbeck process: σ² exp(-t/τ), whatever the step.
  it.each([0.01, 0.05, 0.2])(
    'has the autocovariance 4·exp(-t/0.5 s) in steps of %d s',
    (step_s) => {
      const values = seriesOf(step_s, 20_000, 3);
      for (const time_s of [0, 0.2, 0.4, 1, 2]) {
        const expected = 4 * Math.exp(-time_s / 0.5);
        // About 20 000 independent stretches: the standard error is about 0.03.
        expect(
          Math.abs(autocovariance(values, Math.round(time_s / step_s)) - expected),
        ).toBeLessThan(0.12);
      }
    },
  );

  it('starts in its stationary state', () => {
    const starts = Array.from({ length: 5000 }, (_, seed) =>
      createColouredNoise(
        { standardDeviation: 2, correlationTime_s: 0.5 },
        0.01,
        createRandom(seed),
      ),
    );
    const variance = starts.reduce((sum, { value }) => sum + value * value, 0) / starts.length;
    expect(Math.abs(variance - 4)).toBeLessThan(0.35);
  });
});
