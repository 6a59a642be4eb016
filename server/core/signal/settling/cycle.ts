/** A limit cycle: the reading swings with a period of some seconds and never settles. */
import { cosinePowers, detrend, type NoiseModel } from '../../metrology/type-a/noise-model.ts';

const LONGEST_S = 8;
const SHORTEST_S = 1.6;
/** A swing smaller than this share of the level (amplitude) is left to the noise. */
const LEAST_AMPLITUDE = 0.02;

/**
 * Looks for a line in the spectrum of a window in units of its level: three neighbouring cosine
 * coefficients that hold far more than the noise is known to give, and most of what there is.
 */
export function findCycle(values: readonly number[], period_s: number, noise: NoiseModel): boolean {
  const n = values.length;
  const length_s = n * period_s;
  if (length_s < 1.3 * LONGEST_S) return false;
  const powers = cosinePowers(detrend(values));
  const first = Math.max(Math.round((2 * length_s) / LONGEST_S), 2);
  const last = Math.min(Math.round((2 * length_s) / SHORTEST_S), n - 3);
  const total = powers.reduce((sum, power) => sum + power, 0);
  for (let j = first; j <= last; j++) {
    const held = powers[j - 2]! + powers[j - 1]! + powers[j]!;
    const turns = (Math.PI * j * noise.time_s) / length_s;
    const shape = (1 - noise.whiteShare) / (1 + turns * turns) + noise.whiteShare;
    const expected = (3 * Math.exp(noise.logLevel) * shape) / period_s;
    const amplitude = Math.sqrt((2 * held) / n);
    if (amplitude > LEAST_AMPLITUDE && held > 5 * expected && held > 0.55 * total) return true;
  }
  return false;
}
