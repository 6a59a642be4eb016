/**
 * Noise with a memory: the Ornstein-Uhlenbeck process, advanced exactly in fixed steps. Its
 * autocorrelation is exp(-t/τ) and its integral time scale is τ
 * (Uhlenbeck and Ornstein, Physical Review 36, 1930; Pope, Turbulent Flows, 2000, ch. 12;
 * both from memory).
 */
import { normal, type Random } from './random.ts';

export interface ColouredNoise {
  /** The noise now, in the unit of its standard deviation. */
  value: number;
  /** Share of the value that survives one step. */
  readonly memory: number;
  /** Standard deviation of what one step adds. */
  readonly innovation: number;
}

export interface ColouredNoiseParameters {
  readonly standardDeviation: number;
  readonly correlationTime_s: number;
}

/** A process already in its stationary state. */
export function createColouredNoise(
  parameters: ColouredNoiseParameters,
  step_s: number,
  random: Random,
): ColouredNoise {
  const { standardDeviation, correlationTime_s } = parameters;
  const memory = Math.exp(-step_s / correlationTime_s);
  return {
    value: standardDeviation * normal(random),
    memory,
    innovation: standardDeviation * Math.sqrt(1 - memory * memory),
  };
}

export function advanceColouredNoise(noise: ColouredNoise, random: Random): void {
  noise.value = noise.value * noise.memory + noise.innovation * normal(random);
}
