/**
 * From the plant's terminals to the numbers that the board sends: commutation ripple, the
 * converter's own noise and steps, spikes of a loose contact, dropouts.
 */
import type { Plant } from './plant.ts';
import { between, chance, normal, waitingTime_s, type Random } from './random.ts';

export interface ConverterParameters {
  readonly voltageStep_V: number;
  /** What it adds to every voltage, turning or not. */
  readonly voltageOffset_V: number;
  /** Full scale: what exceeds it reads as full scale. */
  readonly voltageRange_V: number;
  readonly currentStep_A: number;
  /** Standard deviation of the converter's own noise, in steps. */
  readonly noise_steps: number;
  /** Spikes a second, and their size relative to the reading. */
  readonly spikeRate_Hz: number;
  readonly spikeSize: number;
  /** Dropouts a second, their longest, and how the board reports them. */
  readonly dropoutRate_Hz: number;
  readonly dropoutLongest_s: number;
  readonly dropoutAs: 'zero' | 'missing';
}

export interface Converter {
  readonly parameters: ConverterParameters;
  readonly random: Random;
  nextSpike_s: number;
  nextDropout_s: number;
  dropoutEnd_s: number;
}

export interface Conversion {
  readonly voltage_V: number | null;
  readonly current_A: number | null;
}

export function createConverter(parameters: ConverterParameters, random: Random): Converter {
  return {
    parameters,
    random,
    nextSpike_s: waitingTime_s(random, parameters.spikeRate_Hz),
    nextDropout_s: waitingTime_s(random, parameters.dropoutRate_Hz),
    dropoutEnd_s: -Infinity,
  };
}

/** What the board reads at this moment. */
export function convert(converter: Converter, plant: Plant, time_s: number): Conversion {
  const { parameters, random } = converter;
  const { generator } = plant.parameters;
  const ripple = generator.ripple * Math.cos(generator.ripplesPerTurn * plant.rotorAngle_rad);
  const factor = (1 + ripple) * spikeFactor(converter, time_s);
  const noise = (step: number) => step * parameters.noise_steps * normal(random);
  const voltage =
    plant.voltage_V * factor + parameters.voltageOffset_V + noise(parameters.voltageStep_V);
  const current = plant.current_A * factor + noise(parameters.currentStep_A);
  if (inDropout(converter, time_s)) {
    const reading = parameters.dropoutAs === 'zero' ? 0 : null;
    return { voltage_V: reading, current_A: reading };
  }
  return {
    voltage_V: quantise(Math.min(voltage, parameters.voltageRange_V), parameters.voltageStep_V),
    current_A: quantise(current, parameters.currentStep_A),
  };
}

/** Whole steps; the converter can't read below zero. */
function quantise(value: number, step: number): number {
  return Math.max(0, Math.round(value / step)) * step;
}

function spikeFactor(converter: Converter, time_s: number): number {
  if (time_s < converter.nextSpike_s) return 1;
  const { random, parameters } = converter;
  converter.nextSpike_s = time_s + waitingTime_s(random, parameters.spikeRate_Hz);
  const size = parameters.spikeSize * between(random, 0.4, 1);
  return chance(random, 0.5) ? 1 + size : Math.max(0, 1 - size);
}

function inDropout(converter: Converter, time_s: number): boolean {
  const { random, parameters } = converter;
  if (time_s >= converter.nextDropout_s) {
    converter.dropoutEnd_s = time_s + parameters.dropoutLongest_s * between(random, 0.05, 1);
    converter.nextDropout_s =
      converter.dropoutEnd_s + waitingTime_s(random, parameters.dropoutRate_Hz);
  }
  return time_s < converter.dropoutEnd_s;
}
