/** Four ways in which the noise of a reading may arise. */
import {
  advanceColouredNoise,
  createColouredNoise,
  type ColouredNoiseParameters,
} from '#core/virtual-rig/coloured-noise.ts';
import type { Random } from '#core/virtual-rig/random.ts';
import type { CalibratedTraits } from './calibrated-kinds.ts';

/** How far the readings are off the course at one moment, relative to it. */
export interface Deviations {
  readonly voltage: number;
  readonly current: number;
  readonly wind: number;
}

export interface NoiseWay {
  /** Current and wind are read, too. */
  readonly loadAndWind: boolean;
  /** The anemometer follows the wind late. */
  readonly anemometerLags: boolean;
  /** The wind stays even, whatever sets the level. */
  readonly evenWind: boolean;
  /** What is called for every step of time from then on. */
  start(traits: CalibratedTraits, step_s: number, random: Random): () => Deviations;
}

/** Gusts and wander of the wind, as the rotor passes them on. */
const gusty: NoiseWay = {
  loadAndWind: true,
  anemometerLags: true,
  evenWind: false,
  start(traits, step_s, random) {
    const gust = startNoise(gustsFor(traits), step_s, random);
    const wander = startNoise(traits.wander, step_s, random);
    const windNoise = startNoise(traits.windNoise, step_s, random);
    let passed = 0;
    return () => {
      const blown = gust();
      const wandered = wander();
      passed += ((blown + wandered - passed) * step_s) / traits.lag_s;
      const wind = 0.8 * blown + 0.6 * windNoise() + wandered;
      return { voltage: passed, current: passed, wind };
    };
  },
};

/** Noise of its own on the voltage; current follows it, the wind shares its wander. */
const added: NoiseWay = {
  loadAndWind: true,
  anemometerLags: false,
  evenWind: false,
  start(traits, step_s, random) {
    const noise = startNoise(traits.noise, step_s, random);
    const wander = startNoise(traits.wander, step_s, random);
    const windNoise = startNoise(traits.windNoise, step_s, random);
    return () => {
      const wandered = wander();
      const voltage = noise() + wandered;
      return { voltage, current: voltage, wind: windNoise() + wandered };
    };
  },
};

/** Voltage, current and wind each with noise of their own; wander is common to the first two. */
const apart: NoiseWay = {
  loadAndWind: true,
  anemometerLags: false,
  evenWind: true,
  start(traits, step_s, random) {
    const voltageNoise = startNoise(traits.noise, step_s, random);
    const currentNoise = startNoise(traits.noise, step_s, random);
    const wander = startNoise(traits.wander, step_s, random);
    const wind = startNoise(traits.windNoise, step_s, random);
    return () => {
      const wandered = wander();
      const voltage = voltageNoise() + wandered;
      return { voltage, current: currentNoise() + wandered, wind: wind() };
    };
  },
};

/** The second smoothing has a third of the noise's memory; this makes up for what it takes away. */
const SMOOTHING_SHARE = 1 / 3;
const SMOOTHING_GAIN = 1.3;

/** Nothing but a voltage, its noise smoothed twice. */
const alone: NoiseWay = {
  loadAndWind: false,
  anemometerLags: false,
  evenWind: false,
  start(traits, step_s, random) {
    const noise = startNoise(traits.noise, step_s, random);
    const wander = startNoise(traits.wander, step_s, random);
    const smoothing_s = traits.noise.correlationTime_s * SMOOTHING_SHARE;
    let smoothed = 0;
    return () => {
      smoothed += ((SMOOTHING_GAIN * noise() - smoothed) * step_s) / smoothing_s;
      const voltage = smoothed + wander();
      return { voltage, current: voltage, wind: 0 };
    };
  },
};

export const NOISE_WAYS = { gusty, added, apart, alone };

/** Gusts that a rotor of this lag turns into the noise that was drawn, as far as limits allow. */
function gustsFor(traits: CalibratedTraits): ColouredNoiseParameters {
  const { noise, windNoise, lag_s, gustLimits } = traits;
  const { correlationTime_s } = windNoise;
  const passes = Math.sqrt(correlationTime_s / (correlationTime_s + lag_s));
  const [least, most] = gustLimits;
  const wished = noise.standardDeviation / passes;
  return { standardDeviation: Math.min(most, Math.max(least, wished)), correlationTime_s };
}

function startNoise(
  parameters: ColouredNoiseParameters,
  step_s: number,
  random: Random,
): () => number {
  const noise = createColouredNoise(parameters, step_s, random);
  return () => {
    advanceColouredNoise(noise, random);
    return noise.value;
  };
}
