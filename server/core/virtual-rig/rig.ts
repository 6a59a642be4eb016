/**
 * The whole virtual rig: plant, anemometer and converter, moved by a list of timed events and
 * read at a fixed rate. The same seed and events give the same readings.
 */
import {
  advanceAnemometer,
  createAnemometer,
  type Anemometer,
  type AnemometerParameters,
} from './anemometer.ts';
import { convert, createConverter, type Converter, type ConverterParameters } from './converter.ts';
import { advancePlant, applyEvent, createPlant } from './plant.ts';
import type { Plant, PlantEvent, PlantParameters } from './plant.ts';
import { createRandom } from './random.ts';

export interface RigParameters {
  readonly plant: PlantParameters;
  /** The blade angle at the beginning. */
  readonly angle_deg: number;
  readonly anemometer: AnemometerParameters | null;
  readonly converter: ConverterParameters;
}

export interface TimedEvent {
  readonly at_s: number;
  readonly event: PlantEvent;
}

/** One line of the board: what it reads at `time_s` after it was switched on. */
export interface Reading {
  readonly time_s: number;
  readonly voltage_V: number | null;
  readonly current_A: number | null;
  /** null without an anemometer. */
  readonly windSpeed_mps: number | null;
}

export interface Rig {
  readonly rate_Hz: number;
  readonly stepsPerReading: number;
  readonly plant: Plant;
  readonly anemometer: Anemometer | null;
  readonly converter: Converter;
  /** Events still to come, in order of time; more may be added behind the last. */
  readonly events: TimedEvent[];
  step: number;
  readingCount: number;
}

export interface RigSetup {
  readonly parameters: RigParameters;
  /** In order of time. */
  readonly events: readonly TimedEvent[];
  readonly rate_Hz: number;
  readonly seed: number;
}

/** Steps of the plant are no longer than this, a tenth of its fastest lag and less. */
const LONGEST_STEP_S = 0.005;
const STREAMS = { plant: 1, converter: 2 } as const;

export function createRig({ parameters, events, rate_Hz, seed }: RigSetup): Rig {
  const stepsPerReading = Math.ceil(1 / (rate_Hz * LONGEST_STEP_S) - 1e-9);
  const step_s = 1 / (rate_Hz * stepsPerReading);
  const random = createRandom(seed, STREAMS.plant);
  return {
    rate_Hz,
    stepsPerReading,
    plant: createPlant(parameters.plant, parameters.angle_deg, step_s, random),
    anemometer: parameters.anemometer && createAnemometer(parameters.anemometer),
    converter: createConverter(parameters.converter, createRandom(seed, STREAMS.converter)),
    events: [...events],
    step: 0,
    readingCount: 0,
  };
}

/** The next reading; the first is at time zero, with everything at rest. */
export function nextReading(rig: Rig): Reading {
  const time_s = rig.readingCount / rig.rate_Hz;
  if (rig.readingCount > 0) {
    for (let i = 0; i < rig.stepsPerReading; i++) advanceRig(rig);
  }
  rig.readingCount += 1;
  const { voltage_V, current_A } = convert(rig.converter, rig.plant, time_s);
  return { time_s, voltage_V, current_A, windSpeed_mps: rig.anemometer?.reading_mps ?? null };
}

function advanceRig(rig: Rig): void {
  const { plant, events } = rig;
  const time_s = rig.step * plant.step_s;
  while (events[0] && events[0].at_s <= time_s) {
    applyEvent(plant, events[0].event);
    events.shift();
  }
  advancePlant(plant);
  if (rig.anemometer) advanceAnemometer(rig.anemometer, plant.pointWind_mps, plant.step_s);
  rig.step += 1;
}

/** The noise-free course of a rig's readings in even steps from time zero. */
export interface TrueCourse {
  readonly step_s: number;
  readonly voltage_V: Float64Array;
  readonly current_A: Float64Array;
  readonly windSpeed_mps: Float64Array;
}

/** What the rig would read without noise, quantisation, ripple, spikes, dropouts and offset. */
export function trueCourse(
  parameters: RigParameters,
  events: readonly TimedEvent[],
  duration_s: number,
): TrueCourse {
  const step_s = LONGEST_STEP_S;
  const plant = createPlant(parameters.plant, parameters.angle_deg, step_s, null);
  const count = Math.floor(duration_s / step_s + 1e-9) + 1;
  const voltage_V = new Float64Array(count);
  const current_A = new Float64Array(count);
  const windSpeed_mps = new Float64Array(count);
  let next = 0;
  for (let i = 1; i < count; i++) {
    for (let due = events[next]; due && due.at_s <= (i - 1) * step_s; due = events[++next]) {
      applyEvent(plant, due.event);
    }
    advancePlant(plant);
    voltage_V[i] = plant.voltage_V;
    current_A[i] = plant.current_A;
    windSpeed_mps[i] = plant.pointWind_mps;
  }
  return { step_s, voltage_V, current_A, windSpeed_mps };
}
