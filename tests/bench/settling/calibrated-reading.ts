/** What a board reads of a course of the calibrated recordings, noise and faults included. */
import type { Sample } from '#core/signal/sample.ts';
import { between, chance, logBetween, normal, type Random } from '#core/virtual-rig/random.ts';
import type { CalibratedCourse } from './calibrated-course.ts';
import type { CalibratedTraits } from './calibrated-kinds.ts';
import type { Deviations, NoiseWay } from './calibrated-noise.ts';

const CONVERTER_RANGE_V = 5;
const CURRENT_STEP = 1 / 700;
const WIND_STEP_MPS = 0.01;
/** Of the wind at full scale, where something else than the fan sets the level. */
const EVEN_WIND = 0.9;

/** Voltage and current relative to full scale. */
interface Signals {
  readonly voltage: number;
  readonly current: number;
  readonly wind_mps: number;
}

export function readCalibrated(
  course: CalibratedCourse,
  traits: CalibratedTraits,
  way: NoiseWay,
  rate_Hz: number,
  random: Random,
): Sample[] {
  const { step_s, values, goals } = course;
  const every = Math.round(1 / (rate_Hz * step_s));
  const deviate = way.start(traits, step_s, random);
  const ripple = createRipple(traits, step_s);
  const blow = createWind(traits, way, step_s);
  const convert = createConverter(traits, way, 1 / rate_Hz, random);
  const samples: Sample[] = [];
  for (let i = 0; i < values.length; i++) {
    const off = deviate();
    const rippled = values[i]! * ripple(values[i]!);
    const voltage = rippled * Math.max(0, 1 + off.voltage);
    const current = rippled * Math.max(0, 1 + off.current);
    const signals = { voltage, current, wind_mps: blow(goals[i]!, off) };
    if (i % every === 0) samples.push(convert(i * step_s, signals));
  }
  return samples;
}

/** A factor; the generator's ripple quickens as it turns faster. */
function createRipple({ ripple, rippleRate_Hz }: CalibratedTraits, step_s: number) {
  let phase = 0;
  return (level: number): number => {
    phase += 2 * Math.PI * rippleRate_Hz * (0.5 + 3 * level) * step_s;
    return 1 + ripple * Math.sin(phase);
  };
}

function createWind(traits: CalibratedTraits, way: NoiseWay, step_s: number) {
  const { full_mps, anemometerLag_s } = traits;
  const follows = traits.fanSetsLevel && !way.evenWind;
  let read_mps = 0;
  return (goal: number, { wind }: Deviations): number => {
    const blown = goal === 0 ? 0 : follows ? goal : EVEN_WIND;
    const now_mps = full_mps * blown * Math.max(0, 1 + wind);
    if (!way.anemometerLags) return now_mps;
    read_mps += ((now_mps - read_mps) * step_s) / anemometerLag_s;
    return read_mps;
  };
}

function createConverter(
  traits: CalibratedTraits,
  { loadAndWind }: NoiseWay,
  period_s: number,
  random: Random,
) {
  const { full_V, full_A, step, white } = traits;
  const spike = createSpikes(traits, period_s, random);
  const dropout = createDropouts(traits, period_s, random);
  return (time_s: number, signals: Signals): Sample => {
    const passes = dropout(time_s);
    const voltage = signals.voltage * (1 + white * normal(random)) * spike(time_s);
    const current = signals.current * (1 + white * normal(random));
    const read_V = Math.min(CONVERTER_RANGE_V, full_V * rounded(voltage, step));
    const read_A = full_A * rounded(current, CURRENT_STEP);
    return {
      time_s,
      voltage_V: passes === null ? null : passes * read_V,
      current_A: passes === null || !loadAndWind ? null : passes * read_A,
      windSpeed_mps: loadAndWind ? rounded(signals.wind_mps, WIND_STEP_MPS) : null,
      rotorSpeed_radps: null,
    };
  };
}

function rounded(value: number, step: number): number {
  return Math.round(value / step) * step;
}

/** A factor that is one except in a spark, which lasts up to 30 ms. */
function createSpikes({ spikeRate_Hz }: CalibratedTraits, period_s: number, random: Random) {
  let end_s = -1;
  let factor = 1;
  return (time_s: number): number => {
    if (time_s > end_s && chance(random, spikeRate_Hz * period_s)) {
      end_s = time_s + between(random, 0, 0.03);
      factor = 1 + logBetween(random, 0.15, 1) * (chance(random, 0.5) ? 1 : -1);
    }
    return time_s <= end_s ? factor : 1;
  };
}

/** One as a rule; in a dropout either nothing is read (null) or zero. */
function createDropouts({ dropoutRate_Hz }: CalibratedTraits, period_s: number, random: Random) {
  let end_s = -1;
  let passes: 0 | null = 0;
  return (time_s: number): 0 | 1 | null => {
    if (time_s > end_s && chance(random, dropoutRate_Hz * period_s)) {
      end_s = time_s + logBetween(random, 0.05, 1);
      passes = chance(random, 0.5) ? null : 0;
    }
    return time_s < end_s ? passes : 1;
  };
}
