/** Recordings from the physical plant of the virtual rig. */
import type { Sample } from '#core/signal/sample.ts';
import { between, chance, createRandom, uniform, type Random } from '#core/virtual-rig/random.ts';
import { createRig, nextReading, trueCourse } from '#core/virtual-rig/rig.ts';
import type { RigSetup, TrueCourse } from '#core/virtual-rig/rig.ts';
import { KINDS, playSession } from './kinds.ts';
import { length_s, type RecordingMaker, type Interval, type Recording } from './recording.ts';
import { drawRig, ordinaryWishes, type Stamping } from './rig-draw.ts';
import { startScript } from './script.ts';
import { isShort, steadyEnd, truePlateaus, type Stretch } from './truth.ts';

/** The rig's own streams are 1 and 2; the session is drawn from another. */
const SESSION_STREAM = 3;
/** Share of recordings that begin when the rig is already under way. */
const UNDER_WAY_SHARE = 0.15;
/** A wind reading is steady within this of its end, m/s, whatever its size. */
const WIND_TOLERANCE_MPS = 0.05;

export const plantRecordings: RecordingMaker = { kinds: Object.keys(KINDS), record };

function record(kindName: string, rate_Hz: number, seed: number): Recording {
  const kind = KINDS[kindName];
  if (!kind) throw new RangeError(`there is no kind of recording named "${kindName}"`);
  const random = createRandom(seed, SESSION_STREAM);
  const wishes = { ...ordinaryWishes(random), ...kind.wishes?.(random) };
  const rig = drawRig(wishes, random);
  const script = startScript(rig, random);
  playSession(kind, script);
  const { parameters } = rig;
  const { events, stretches } = script;
  const duration_s = script.time_s;
  const setup = { parameters, events, rate_Hz: rate_Hz * rig.stamping.pace, seed };
  const course = trueCourse(parameters, events, duration_s);
  const { voltageStep_V: step_V, voltageOffset_V } = parameters.converter;
  const voltage = {
    step_s: course.step_s,
    values: course.voltage_V.map((value_V) => value_V + voltageOffset_V),
  };
  const still = stretches
    .filter((stretch) => stretch.use === 'still')
    .map((stretch) => restingPart(course, stretch, step_V))
    .filter((rest) => length_s(rest) > 0);
  const recording = {
    kind: kindName,
    rate_Hz,
    seed,
    duration_s,
    lag_s: wishes.timeConstant_s,
    samples: stamp(readSamples(setup, rig.current, duration_s), rig.stamping, random),
    plateaus: truePlateaus(voltage, stretches, step_V),
    restless: stretches.filter((stretch) => stretch.use === 'never'),
    stillInWind: parameters.anemometer ? still.filter((rest) => rest.wind) : [],
    still,
  };
  return chance(random, UNDER_WAY_SHARE) ? cropStart(recording, between(random, 5, 40)) : recording;
}

function readSamples(setup: RigSetup, current: boolean, duration_s: number): Sample[] {
  const rig = createRig(setup);
  const count = Math.floor(duration_s * setup.rate_Hz);
  return Array.from({ length: count }, () => {
    const { time_s, voltage_V, current_A, windSpeed_mps } = nextReading(rig);
    return {
      time_s,
      voltage_V,
      current_A: current ? current_A : null,
      windSpeed_mps,
      rotorSpeed_radps: null,
    };
  });
}

/** Times as the board's clock and the way to the laptop make them; they still increase. */
function stamp(samples: readonly Sample[], stamping: Stamping, random: Random): Sample[] {
  const { resolution_s, jitter, linesLost } = stamping;
  const period_s = samples[1]?.time_s ?? 1;
  const rounds = resolution_s > 0 && period_s > 2 * resolution_s;
  return samples
    .filter((sample) => !linesLost || sample.voltage_V !== null)
    .map((sample) => {
      const shaken_s = sample.time_s + (jitter > 0 ? jitter * period_s * uniform(random) : 0);
      const time_s = rounds ? Math.round(shaken_s / resolution_s) * resolution_s : shaken_s;
      return { ...sample, time_s };
    });
}

/** The same recording begun later. */
function cropStart(recording: Recording, by_s: number): Recording {
  const crop = <T extends Interval>(intervals: readonly T[]): T[] =>
    intervals
      .filter((interval) => interval.end_s > by_s)
      .map((interval) => ({
        ...interval,
        start_s: Math.max(0, interval.start_s - by_s),
        end_s: interval.end_s - by_s,
      }));
  return {
    ...recording,
    duration_s: recording.duration_s - by_s,
    samples: recording.samples
      .filter((sample) => sample.time_s >= by_s)
      .map((sample) => ({ ...sample, time_s: sample.time_s - by_s })),
    plateaus: crop(recording.plateaus).map((plateau) => ({
      ...plateau,
      eitherWay: plateau.eitherWay || isShort(plateau),
    })),
    stillInWind: crop(recording.stillInWind),
    still: crop(recording.still),
    restless: crop(recording.restless),
  };
}

/** The part of a still stretch over which rotor and wind have come to rest. */
function restingPart(course: TrueCourse, stretch: Stretch, step_V: number): Interval & Stretch {
  const { step_s } = course;
  const voltage = { step_s, values: course.voltage_V };
  const wind = { step_s, values: course.windSpeed_mps };
  const start_s = Math.max(
    steadyEnd(voltage, stretch, step_V).start_s,
    steadyEnd(wind, stretch, WIND_TOLERANCE_MPS).start_s,
  );
  return { ...stretch, start_s };
}
