/**
 * Another way of making recordings, written from a description of such rigs by someone who had not
 * seen the detector, and calibrated: its noise is such that known methods score on it as a
 * published table says. The noise arises in one of four ways, which share a seed's session.
 */
import {
  between,
  chance,
  createRandom,
  logBetween,
  type Random,
} from '#core/virtual-rig/random.ts';
import { layCalibratedCourse } from './calibrated-course.ts';
import { CALIBRATED_KINDS, type CalibratedTraits } from './calibrated-kinds.ts';
import { NOISE_WAYS, type NoiseWay } from './calibrated-noise.ts';
import { readCalibrated } from './calibrated-reading.ts';
import { layPieces } from './calibrated-session.ts';
import type { Recording, RecordingMaker } from './recording.ts';
import { truePlateaus } from './truth.ts';

export const calibratedRecordings = {
  gusty: makerOf(NOISE_WAYS.gusty),
  added: makerOf(NOISE_WAYS.added),
  apart: makerOf(NOISE_WAYS.apart),
  alone: makerOf(NOISE_WAYS.alone),
};

const STREAM = 8;
const LONGEST_STEP_S = 0.005;

function makerOf(way: NoiseWay): RecordingMaker {
  return {
    kinds: Object.keys(CALIBRATED_KINDS),
    record: (kind, rate_Hz, seed) => record(way, kind, rate_Hz, seed),
  };
}

function record(way: NoiseWay, kindName: string, rate_Hz: number, seed: number): Recording {
  const kind = CALIBRATED_KINDS[kindName];
  if (!kind) throw new RangeError(`there is no kind of recording named "${kindName}"`);
  const random = createRandom(seed, STREAM);
  const traits: CalibratedTraits = { ...drawTraits(random), ...kind.traits?.(random) };
  const pieces = layPieces(random, traits.lag_s, kind.play);
  const course = layCalibratedCourse(pieces, traits, stepFor_s(rate_Hz));
  const voltage = { ...course, values: course.values.map((value) => value * traits.full_V) };
  return {
    kind: kindName,
    rate_Hz,
    seed,
    duration_s: course.duration_s,
    lag_s: traits.lag_s,
    samples: readCalibrated(course, traits, way, rate_Hz, random),
    plateaus: truePlateaus(voltage, course.stretches, traits.step * traits.full_V),
    restless: course.stretches.filter(({ use }) => use === 'never'),
    stillInWind: [],
    still: course.stretches.filter(({ use }) => use === 'still'),
  };
}

/** The longest step that is short enough and of which a whole number makes a sample's period. */
function stepFor_s(rate_Hz: number): number {
  return 1 / rate_Hz / Math.ceil(1 / (rate_Hz * LONGEST_STEP_S));
}

function drawTraits(random: Random): CalibratedTraits {
  const full_V = logBetween(random, 0.8, 4.2);
  return {
    full_V,
    full_A: full_V / logBetween(random, 4, 30),
    full_mps: between(random, 3, 7),
    // A converter of 10 bits and 5 V.
    step: 5 / 1023 / full_V,
    lag_s: logBetween(random, 0.5, 3.5),
    droop: 0,
    droopTime_s: between(random, 18, 30),
    ...drawNoise(random),
    ripple: between(random, 0, 0.004),
    rippleRate_Hz: between(random, 3, 9),
    spikeRate_Hz: 0,
    dropoutRate_Hz: 0,
    anemometerLag_s: between(random, 0.2, 0.8),
    fanSetsLevel: chance(random, 0.5),
  };
}

type NoiseTraits = 'noise' | 'wander' | 'gustLimits' | 'windNoise' | 'white';

/** The spread of the noise is what was calibrated. */
function drawNoise(random: Random): Pick<CalibratedTraits, NoiseTraits> {
  return {
    noise: {
      standardDeviation: between(random, 0.006, 0.023),
      correlationTime_s: logBetween(random, 0.15, 1),
    },
    wander: {
      standardDeviation: between(random, 0.0009, 0.003),
      correlationTime_s: between(random, 1, 3),
    },
    gustLimits: [0.03, 0.15],
    windNoise: {
      standardDeviation: between(random, 0.03, 0.12),
      correlationTime_s: logBetween(random, 0.05, 0.3),
    },
    white: between(random, 0.0006, 0.002),
  };
}
