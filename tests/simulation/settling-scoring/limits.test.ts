import { expect, it } from 'vitest';
import type { Sample } from '#core/signal/sample.ts';
import { createRandom, normal } from '#core/virtual-rig/random.ts';
import { hindsightMethod } from '../../bench/settling/hindsight-method.ts';
import { knownNoiseMethod } from '../../bench/settling/known-noise-method.ts';
import type { Recording, TruePlateau } from '../../bench/settling/recording.ts';

const LAG_S = 1.5;

/** What drives the rotor: 2 V, then 3 % more, from 60 s up by 1 % a second, from 80 s level. */
function drive_V(time_s: number): number {
  const creep_s = Math.min(Math.max(time_s - 60, 0), 20);
  return 2 * (time_s < 30 ? 1 : 1.03) * Math.exp(0.01 * creep_s);
}

function sampleAt(time_s: number, voltage_V: number): Sample {
  return { time_s, voltage_V, current_A: null, windSpeed_mps: null, rotorSpeed_radps: null };
}

function recording(samples: readonly Sample[], plateaus: readonly TruePlateau[]): Recording {
  return {
    kind: 'by hand',
    rate_Hz: 10,
    seed: 0,
    duration_s: 110,
    lag_s: LAG_S,
    samples,
    plateaus,
    stillInWind: [],
    still: [],
    restless: [],
  };
}

function steppedAndCreeping(): Recording {
  const random = createRandom(31);
  let voltage_V = drive_V(0);
  const samples = Array.from({ length: 1100 }, (_, i) => {
    const drives_V = drive_V(i / 10) * (1 + 0.02 * normal(random));
    voltage_V += ((drives_V - voltage_V) * 0.1) / LAG_S;
    return sampleAt(i / 10, voltage_V);
  });
  const plateaus = [
    { start_s: 0, end_s: 30 },
    { start_s: 32, end_s: 60 },
    { start_s: 82, end_s: 110 },
  ].map((one) => ({ ...one, voltage_V: drive_V((one.start_s + one.end_s) / 2), eitherWay: false }));
  return recording(samples, plateaus);
}

it('with hindsight a small step is a step, a ramp is no plateau, and levels are right', () => {
  const made = steppedAndCreeping();
  const { plateaus } = hindsightMethod.find(made);
  expect(plateaus).toHaveLength(3);
  plateaus.forEach((found, i) => {
    const truth = made.plateaus[i]!;
    expect(Math.abs(found.start_s - truth.start_s)).toBeLessThan(4);
    expect(Math.abs(found.end_s - truth.end_s)).toBeLessThan(3);
    expect(Math.abs(found.voltage_V / truth.voltage_V - 1)).toBeLessThan(0.01);
  });
});

it('with the noise known a mean of n independent readings has s/√n', () => {
  const random = createRandom(32);
  const samples = Array.from({ length: 1100 }, (_, i) => {
    return sampleAt(i / 10, 2 + 0.02 * normal(random));
  });
  const truth = { start_s: 5, end_s: 105, voltage_V: 2, eitherWay: false };
  const [found] = knownNoiseMethod.find(recording(samples, [truth])).plateaus;
  // From sixteen stretches: its logarithm is known to √(1/32).
  const ratio = found!.standardUncertainty_V / (0.02 / Math.sqrt(1000));
  expect(Math.abs(Math.log(ratio))).toBeLessThan(3 * Math.sqrt(1 / 32));
  expect(found!.degreesOfFreedom).toBe(16);
});
