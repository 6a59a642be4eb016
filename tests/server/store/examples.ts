/** Small values of each stored kind, for the store's tests. The numbers mean nothing. */
import { DEFAULT_CONFIGURATION } from '#core/configuration.ts';
import type { ClosedPlateau } from '#core/events.ts';
import type { Trial } from '#core/experiment/trial.ts';
import type { Input } from '#core/inputs.ts';
import type { RecordingHead } from '#core/recording.ts';

export const STARTED_AT = new Date('2031-03-04T09:00:00.000Z');

export const HEAD: RecordingHead = {
  coreVersion: 1,
  origin: 'simulated',
  configuration: DEFAULT_CONFIGURATION,
  firstTrialId: 1,
  learnt: null,
  experiment: null,
  number: null,
};

export function exampleTrial(id: number, change: Partial<Trial> = {}): Trial {
  const power_W = { value: 0.5 + id / 7, standardUncertainty: 0.01 / 3, degreesOfFreedom: 17.25 };
  return {
    id,
    recordingId: 1,
    revision: 1,
    state: 'logged',
    recorded: true,
    start_s: id * 20,
    end_s: id * 20 + 5.125,
    declared_s: id * 20 + 2.5,
    recorded_s: id * 20 + 5.130001,
    sampleCount: 256,
    rotorStill: false,
    basis: 'settled',
    factors: { angle_deg: 20, 'blade set': 'long' },
    runId: null,
    voltage_V: { value: 3.3, standardUncertainty: 0.001, degreesOfFreedom: 12 },
    current_A: { value: 0.15, standardUncertainty: 0.0002, degreesOfFreedom: 11.5 },
    power_W,
    windSpeed_mps: null,
    rotorSpeed_radps: null,
    ripple: null,
    speed: null,
    powerCoefficient: null,
    origin: 'simulated',
    simulated: true,
    struck: false,
    strikeReason: null,
    note: null,
    correction: null,
    ...change,
  };
}

export function examplePlateau(trialId: number | null): ClosedPlateau {
  const power_W = { mean: 0.64, standardUncertainty: 0.003, degreesOfFreedom: 17, effectiveSampleSize: 18 };
  return {
    start_s: 20,
    end_s: 31.5,
    declared_s: 22.5,
    sampleCount: 575,
    rotorStill: false,
    estimates: { power_W },
    endReason: 'changed',
    trialId,
  };
}

/** A line that marks a place in the input, to find it again. */
export function markerLine(number: number): Input {
  return { kind: 'line', at_s: number, text: `marker ${number}` };
}

/** Lines as a board sends them: readings that wander, arriving at `rate_Hz` with some jitter. */
export function exampleLines(count: number, rate_Hz: number, first_s = 0, chance = seeded(1)): Input[] {
  let voltage_V = 4.2;
  let current_A = 0.31;
  let windSpeed_mps = 3.4;
  return Array.from({ length: count }, (_, index) => {
    voltage_V += (chance() - 0.5) * 0.02;
    current_A += (chance() - 0.5) * 0.002;
    windSpeed_mps += (chance() - 0.5) * 0.03;
    const at_us = Math.round((first_s + index / rate_Hz) * 1e6 + chance() * 300);
    const text = `${voltage_V.toFixed(3)},${(current_A * 1000).toFixed(1)},${windSpeed_mps.toFixed(2)}`;
    return { kind: 'line', at_s: at_us / 1e6, text };
  });
}

/** Numbers from 0 to 1 that are the same each time (a linear congruential generator). */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
}
