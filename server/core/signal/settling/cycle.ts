/** A limit cycle: the reading swings with a period of some seconds and never settles. */
import { cosinePowers, detrend } from '../../metrology/type-a/cosines.ts';
import type { NoiseModel } from '../../metrology/type-a/noise-model.ts';

const LONGEST_S = 8;
const SHORTEST_S = 1.6;
/** A swing smaller than this share of the level (amplitude of the reading) is left to the noise. */
const LEAST_AMPLITUDE = 0.02;
/** What share of all there is a line must hold. */
const LEAST_SHARE = 0.4;
/** With such a share it is a line whatever is known of the noise. */
const PLAIN_SHARE = 0.85;
/** A lopsided cycle holds less in one line; then it must stand so many times as far above. */
const LOPSIDED_SHARE = 0.3;
const LOPSIDED_CONTRAST = 3;

/** The window that a cycle of any period is looked for in, and the shortest that holds one. */
export const CYCLE_WINDOW_S = 10.4;
export const SHORTEST_CYCLE_WINDOW_S = 4.5;

/** Amplitude of a reading whose drive has this mean square, all of it at one frequency. */
function amplitudeOf(meanSquare: number, turnsOfLag: number): number {
  return Math.sqrt((2 * meanSquare) / (1 + turnsOfLag ** 2));
}

/**
 * Looks for a line in the spectrum of a window of what drives the rotor, in units of its level:
 * three neighbouring cosine coefficients that hold far more than the noise is known to give, and
 * most of what there is. The reading itself swings less than its drive: by √(1 + (2πf·lag)²).
 */
export function findCycle(asked: {
  drive: readonly number[];
  period_s: number;
  lag_s: number;
  noise: NoiseModel;
  contrast: number;
}): boolean {
  const { drive, period_s, lag_s, noise } = asked;
  const contrast = asked.contrast * Math.exp(Math.sqrt(noise.logLevelVariance));
  const n = drive.length;
  const length_s = n * period_s;
  const first = Math.max(Math.round((2 * length_s) / LONGEST_S), 3);
  const last = Math.min(Math.round((2 * length_s) / SHORTEST_S), n - 3);
  const swing = detrend(drive);
  let total = 0;
  for (let i = 0; i < n; i++) total += swing[i]! * swing[i]!;
  // No coefficients hold more than all there is; often even that is too little to swing.
  if (amplitudeOf(total / n, ((Math.PI * first) / length_s) * lag_s) < LEAST_AMPLITUDE) return false;
  const powers = new Float64Array(last + 1);
  cosinePowers(swing, last + 1, powers);
  for (let j = first; j <= last; j++) {
    const held = powers[j - 2]! + powers[j - 1]! + powers[j]!;
    const turns = Math.PI * j / length_s;
    const slow = (1 - noise.whiteShare) / (1 + (turns * noise.time_s) ** 2);
    const shape = slow + noise.whiteShare * (1 + (turns * lag_s) ** 2);
    const expected = (3 * Math.exp(noise.logLevel) * shape) / period_s;
    if (amplitudeOf(held / n, turns * lag_s) < LEAST_AMPLITUDE) continue;
    if (held > PLAIN_SHARE * total && held > 2 * expected) return true;
    const least = held > LOPSIDED_CONTRAST * contrast * expected ? LOPSIDED_SHARE : LEAST_SHARE;
    if (held > contrast * expected && held > least * total) return true;
  }
  return false;
}
