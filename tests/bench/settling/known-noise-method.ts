/**
 * A limit for the width of an interval: the true plateaus given, and how far means over stretches
 * of them lie from the truth, pooled over the recording. Variances of longer means go as 1/length.
 */
import { estimateInterval } from './estimate-interval.ts';
import type { FoundPlateau, Method } from './method.ts';
import { length_s, type Recording, type TruePlateau } from './recording.ts';

/** Longer than what is slow in the air; shorter, and a recording would give too few. */
const STRETCH_S = 6;
/** What is left of an approach within the tolerance is over after so many lags. */
const LAGS = 2;

export const knownNoiseMethod: Method = {
  name: 'intervals and noise known',
  find: (recording) => ({ plateaus: plateausOf(recording), takenBack: [], hopeless_s: [] }),
};

function plateausOf(recording: Recording): FoundPlateau[] {
  const errors = recording.plateaus.flatMap((truth) => errorsIn(recording, truth));
  const square = errors.reduce((sum, error) => sum + error * error, 0) / errors.length;
  return recording.plateaus.map((truth) => {
    const { start_s, end_s, voltage_V } = truth;
    const own = estimateInterval(recording.samples, truth);
    const u_V = voltage_V * Math.sqrt((square * STRETCH_S) / length_s(truth));
    const known = { standardUncertainty_V: u_V, degreesOfFreedom: errors.length };
    const estimate = errors.length > 1 ? { ...own, ...known } : own;
    return { start_s, end_s, declared_s: start_s, closed_s: end_s, ...estimate };
  });
}

/** Of means over stretches of one plateau, relative to its truth. */
function errorsIn({ samples, lag_s }: Recording, truth: TruePlateau): number[] {
  const first_s = truth.start_s + LAGS * lag_s;
  const count = Math.max(0, Math.floor((truth.end_s - first_s) / STRETCH_S));
  return Array.from({ length: count }, (_, i) => {
    const start_s = first_s + i * STRETCH_S;
    const { voltage_V } = estimateInterval(samples, { start_s, end_s: start_s + STRETCH_S });
    return voltage_V / truth.voltage_V - 1;
  });
}
