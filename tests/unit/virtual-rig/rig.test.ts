import { describe, expect, it } from 'vitest';
import { createRig, nextReading, trueCourse, type TimedEvent } from '#core/virtual-rig/rig.ts';
import { rigWith, STILL_AIR } from './example-rig.ts';

const EVENTS: readonly TimedEvent[] = [
  { at_s: 1, event: { kind: 'fan', wind_mps: 4 } },
  { at_s: 20, event: { kind: 'fan', wind_mps: 0 } },
];

function readings(rate_Hz: number, seed: number, jet = {}, converter = {}) {
  const rig = createRig({ parameters: rigWith(jet, converter), events: EVENTS, rate_Hz, seed });
  return Array.from({ length: rate_Hz * 30 }, () => nextReading(rig));
}

describe('virtual rig', () => {
  it('repeats itself for the same seed and not for another', () => {
    expect(readings(50, 1)).toEqual(readings(50, 1));
    expect(readings(50, 1)).not.toEqual(readings(50, 2));
  });

  it.each([5, 50, 1000])('reads at the given rate and acts on time, at %d Hz', (rate_Hz) => {
    const values = readings(rate_Hz, 1, STILL_AIR);
    expect(values[rate_Hz]!.time_s).toBeCloseTo(1, 12);
    const voltageAt = (time_s: number) => values[Math.round(time_s * rate_Hz)]!.voltage_V!;
    expect(voltageAt(0.8)).toBeLessThan(0.01);
    expect(voltageAt(19.8)).toBeGreaterThan(2);
    expect(voltageAt(21.4)).toBeLessThan(0.95 * voltageAt(19.8));
  });

  it.each([5, 200, 1000])('follows its true course where nothing is noisy, at %d Hz', (rate_Hz) => {
    const quiet = { noise_steps: 0, voltageStep_V: 1e-6 };
    const parameters = rigWith(STILL_AIR, quiet);
    const rippleless = {
      ...parameters,
      plant: { ...parameters.plant, generator: { ...parameters.plant.generator, ripple: 0 } },
    };
    const rig = createRig({ parameters: rippleless, events: EVENTS, rate_Hz, seed: 1 });
    const course = trueCourse(rippleless, EVENTS, 30);
    for (let i = 0; i < rate_Hz * 19; i++) {
      const { time_s, voltage_V } = nextReading(rig);
      const truth_V = course.voltage_V[Math.round(time_s / course.step_s)]!;
      // Steps of 1 ms and of 5 ms run up a little differently.
      expect(Math.abs(voltage_V! - truth_V)).toBeLessThan(0.02);
    }
  });

  it('says nothing of the wind without an anemometer', () => {
    const parameters = { ...rigWith({}), anemometer: null };
    const rig = createRig({ parameters, events: [], rate_Hz: 10, seed: 1 });
    expect(nextReading(rig).windSpeed_mps).toBeNull();
  });
});
