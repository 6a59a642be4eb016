/** Readings of an instrument so quiet, or so coarse, that they do not vary at all. */
import { describe, expect, it } from 'vitest';
import type { Plateau } from '#core/signal/plateau.ts';
import type { Sample } from '#core/signal/sample.ts';
import { createDetector, finish, observe } from '#core/signal/settling/detector.ts';

type Reading = Omit<Sample, 'time_s'>;
const NONE: Reading = { voltage_V: null, current_A: null, windSpeed_mps: null, rotorSpeed_radps: null };

/** Plateaus of parts that each hold one reading for a while, at 50 samples a second. */
function plateausOf(parts: readonly (Partial<Reading> & { length_s: number })[]): Plateau[] {
  const detector = createDetector(null);
  const found: Plateau[] = [];
  let count = 0;
  for (const { length_s, ...reading } of parts) {
    for (let left = length_s * 50; left > 0; left -= 1) {
      const events = observe(detector, { ...NONE, ...reading, time_s: count / 50 });
      for (const event of events) if (event.kind === 'closed') found.push(event.plateau);
      count += 1;
    }
  }
  for (const event of finish(detector)) if (event.kind === 'closed') found.push(event.plateau);
  return found;
}

describe('readings that do not vary', () => {
  it('gives each level of a clean step its own plateau and mean', () => {
    const found = plateausOf([
      { voltage_V: 0, current_A: 0, windSpeed_mps: 0, length_s: 4 },
      { voltage_V: 2.4, current_A: 0.109, windSpeed_mps: 4.2, length_s: 14 },
      { voltage_V: 1.8, current_A: 0.082, windSpeed_mps: 4.2, length_s: 14 },
    ]);
    expect(found.map(({ rotorStill }) => rotorStill)).toEqual([false, false]);
    expect(found.map(({ estimates }) => estimates.voltage_V?.mean)).toEqual([
      expect.closeTo(2.4, 9),
      expect.closeTo(1.8, 9),
    ]);
    expect(found[0]?.start_s).toBeGreaterThanOrEqual(4);
  });

  it('does not call constant readings exact', () => {
    const [plateau] = plateausOf([{ voltage_V: 2.4, current_A: 0.1, length_s: 12 }]);
    const voltage = plateau?.estimates.voltage_V;
    // A 10-bit converter (common practice, no source) that just reads 2.4 V leaves 2.4 V/1024/√12.
    // What such a converter rounds away is all that is not known of them (JCGM 100, F.2.2.1).
    expect(voltage?.standardUncertainty).toBeCloseTo(2.4 / 1024 / Math.sqrt(12), 9);
    expect(plateau?.estimates.power_W?.standardUncertainty).toBeGreaterThan(0);
  });

  it('gives zero an uncertainty too, for a rotor at rest in the wind', () => {
    const [plateau] = plateausOf([{ voltage_V: 0, current_A: 0, windSpeed_mps: 4, length_s: 15 }]);
    expect(plateau?.rotorStill).toBe(true);
    expect(plateau?.estimates.voltage_V?.mean).toBe(0);
    expect(plateau?.estimates.voltage_V?.standardUncertainty).toBeGreaterThan(1e-6);
  });

  it('logs nothing of an anemometer in still air, and the wind when it blows', () => {
    expect(plateausOf([{ windSpeed_mps: 0, length_s: 20 }])).toEqual([]);
    expect(plateausOf([{ windSpeed_mps: 4, length_s: 20 }])).toHaveLength(1);
  });
});
