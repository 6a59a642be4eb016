/** Recordings from the physical plant of the virtual rig. */
import type { Sample } from '#core/signal/sample.ts';
import { createRandom } from '#core/virtual-rig/random.ts';
import { createRig, nextReading, trueCourse } from '#core/virtual-rig/rig.ts';
import type { RigSetup, TrueCourse } from '#core/virtual-rig/rig.ts';
import { KINDS, playSession } from './kinds.ts';
import { length_s, type Generator, type Interval, type Recording } from './recording.ts';
import { drawRig, ordinaryWishes } from './rig-draw.ts';
import { startScript } from './script.ts';
import { steadyEnd, truePlateaus, type Stretch } from './truth.ts';

/** The rig's own streams are 1 and 2; the session is drawn from another. */
const SESSION_STREAM = 3;
/** A wind reading is steady within this of its end, m/s, whatever its size. */
const WIND_TOLERANCE_MPS = 0.05;

export const plantGenerator: Generator = { kinds: Object.keys(KINDS), record };

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
  const course = trueCourse(parameters, events, duration_s);
  const voltage = { step_s: course.step_s, values: course.voltage_V };
  const step_V = parameters.converter.voltageStep_V;
  const still = stretches
    .filter((stretch) => stretch.use === 'still')
    .map((stretch) => restingPart(course, stretch, step_V))
    .filter((rest) => length_s(rest) > 0);
  return {
    kind: kindName,
    rate_Hz,
    seed,
    duration_s,
    samples: readSamples({ parameters, events, rate_Hz, seed }, duration_s, rig.current),
    plateaus: truePlateaus(voltage, stretches, step_V),
    stillInWind: parameters.anemometer ? still.filter((rest) => rest.wind) : [],
    still,
  };
}

function readSamples(setup: RigSetup, duration_s: number, current: boolean): Sample[] {
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
