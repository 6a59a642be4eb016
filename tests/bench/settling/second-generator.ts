/**
 * A second way of making recordings, built apart from the plant so that a method fitted to the
 * plant's ways shows: plain signals, noises and faults laid over each other.
 */
import type { Sample } from '#core/signal/sample.ts';
import { advanceColouredNoise, createColouredNoise } from '#core/virtual-rig/coloured-noise.ts';
import {
  between,
  chance,
  createRandom,
  logBetween,
  normal,
  uniform,
  type Random,
} from '#core/virtual-rig/random.ts';
import type { RecordingMaker, Interval, Recording } from './recording.ts';
import { layCourse, type Lags, type SecondCourse } from './second-course.ts';
import { SECOND_KINDS, type Traits } from './second-kinds.ts';
import { steadyEnd, truePlateaus } from './truth.ts';

export const secondRecordings: RecordingMaker = { kinds: Object.keys(SECOND_KINDS), record };

const STREAM = 7;
const FULL_WIND_MPS = 5;
const LONGEST_STILL_WIND = 0.02;

function record(kindName: string, rate_Hz: number, seed: number): Recording {
  const kind = SECOND_KINDS[kindName];
  if (!kind) throw new RangeError(`there is no kind of recording named "${kindName}"`);
  const random = createRandom(seed, STREAM);
  const traits: Traits = { ...drawTraits(random), ...kind.traits?.(random) };
  const lags = drawLags(traits, random);
  const course = layCourse(kind.pieces(random, lags), lags);
  const voltage = { step_s: course.step_s, values: course.values.map((v) => v * traits.full_V) };
  const still = restsOf(course, traits.step);
  return {
    kind: kindName,
    rate_Hz,
    seed,
    duration_s: course.duration_s,
    lag_s: lags.rise_s,
    samples: readCourse(course, traits, rate_Hz, random),
    plateaus: truePlateaus(voltage, course.stretches, traits.step * traits.full_V),
    restless: course.stretches.filter((stretch) => stretch.use === 'never'),
    stillInWind: traits.windStep_mps === null ? [] : still.filter((rest) => rest.wind),
    still,
  };
}

function drawTraits(random: Random): Traits {
  return {
    full_V: logBetween(random, 0.2, 15),
    step: logBetween(random, 0.0003, 0.004),
    lag_s: logBetween(random, 0.4, 4),
    droop: between(random, 0, 0.006),
    noises: [
      {
        standardDeviation: logBetween(random, 0.002, 0.014),
        correlationTime_s: logBetween(random, 0.1, 1),
      },
      {
        standardDeviation: logBetween(random, 0.001, 0.006),
        correlationTime_s: logBetween(random, 1, 3),
      },
    ],
    white: logBetween(random, 0.0005, 0.01),
    swell: chance(random, 0.4) ? between(random, 0.1, 0.4) : 0,
    ripple: between(random, 0, 0.02),
    hum: chance(random, 0.2) ? between(random, 0.002, 0.01) : 0,
    spikeShare_per_s: 0,
    gapShare_per_s: 0,
    windStep_mps: chance(random, 0.5) ? logBetween(random, 0.01, 0.2) : null,
    windHold_s: chance(random, 0.5) ? between(random, 0.3, 1.2) : 0,
    currentExponent: chance(random, 0.75) ? (chance(random, 0.5) ? 0.55 : 1) : null,
  };
}

function drawLags({ lag_s, droop }: Traits, random: Random): Lags {
  return {
    rise_s: lag_s,
    fall_s: lag_s * between(random, 0.8, 1.8),
    lead_s: logBetween(random, 0.1, 1),
    droop,
    droopTime_s: between(random, 10, 30),
  };
}

interface Rest extends Interval {
  readonly wind: boolean;
}

function restsOf(course: SecondCourse, step: number): Rest[] {
  return course.stretches
    .filter((stretch) => stretch.use === 'still')
    .map((stretch) => ({
      ...stretch,
      start_s: Math.max(
        steadyEnd(course, stretch, step).start_s,
        steadyEnd({ ...course, values: course.wind }, stretch, LONGEST_STILL_WIND).start_s,
      ),
    }))
    .filter((rest) => rest.end_s > rest.start_s);
}

/** Reads the course at the sample rate with everything laid over it. */
function readCourse(
  course: SecondCourse,
  traits: Traits,
  rate_Hz: number,
  random: Random,
): Sample[] {
  const period_s = 1 / rate_Hz;
  const noises = traits.noises.map((noise) => createColouredNoise(noise, period_s, random));
  const swell = createColouredNoise(
    { standardDeviation: traits.swell, correlationTime_s: between(random, 3, 15) },
    period_s,
    random,
  );
  const readWind = createWindReader(traits, period_s, random);
  const rippleRate_Hz = between(random, 15, 90);
  const current_A = logBetween(random, 0.005, 0.3);
  const samples: Sample[] = [];
  let phase = 0;
  let gapEnd_s = 0;
  for (let i = 0; i < course.duration_s * rate_Hz; i++) {
    const time_s = i * period_s;
    const at = Math.min(course.values.length - 1, Math.floor(time_s / course.step_s));
    const clean = course.values[at]!;
    let relative = traits.white * normal(random);
    advanceColouredNoise(swell, random);
    for (const noise of noises) {
      advanceColouredNoise(noise, random);
      relative += noise.value * Math.exp(swell.value);
    }
    phase += 2 * Math.PI * rippleRate_Hz * clean * period_s;
    relative += traits.ripple * Math.sin(phase);
    relative += traits.hum * Math.sin(2 * Math.PI * 50 * time_s);
    if (chance(random, traits.spikeShare_per_s * period_s)) relative += between(random, -0.9, 0.9);
    if (chance(random, traits.gapShare_per_s * period_s))
      gapEnd_s = time_s + between(random, 0.03, 0.7);
    const wind = readWind(course.wind[at]!);
    const lost = time_s < gapEnd_s;
    const value = Math.max(0, clean * (1 + relative));
    const lamp = traits.currentExponent;
    samples.push({
      time_s,
      voltage_V: lost ? null : Math.round(value / traits.step) * traits.step * traits.full_V,
      current_A: lost || lamp === null ? null : Math.round(current_A * value ** lamp * 1e5) / 1e5,
      windSpeed_mps: wind,
      rotorSpeed_radps: null,
    });
  }
  return samples;
}

/** Wind with gusts of its own, in steps, perhaps held between readings. */
function createWindReader(
  { windStep_mps, windHold_s }: Traits,
  period_s: number,
  random: Random,
): (wind: number) => number | null {
  if (windStep_mps === null) return () => null;
  const gusts = createColouredNoise(
    {
      standardDeviation: between(random, 0.02, 0.08),
      correlationTime_s: logBetween(random, 0.1, 0.6),
    },
    period_s,
    random,
  );
  let held_mps = 0;
  let heldFor_s = uniform(random) * windHold_s;
  return (wind) => {
    advanceColouredNoise(gusts, random);
    heldFor_s += period_s;
    if (heldFor_s >= windHold_s) {
      heldFor_s = 0;
      const now_mps = FULL_WIND_MPS * wind * (1 + gusts.value);
      held_mps = Math.max(0, Math.round(now_mps / windStep_mps) * windStep_mps);
    }
    return held_mps;
  };
}
