/** What is believed of the noise at this moment. */
import { detrend } from '../../metrology/type-a/cosines.ts';
import { fitNoise } from '../../metrology/type-a/noise-fit.ts';
import { atLeastRounding, type NoiseModel } from '../../metrology/type-a/noise-model.ts';
import {
  believable,
  expectedNoise,
  learnNoise,
  learnOwn,
  priorOf,
  type NoiseMemory,
} from './noise-memory.ts';
import { raiseOf } from './sight.ts';
import { resolutionOf, type Detector, type Sight } from './state.ts';
import { driveIn, driveMean, driveSlope, newest, type Track } from './track.ts';

/** Noise is looked into this often, while seeking over this long a stretch. */
export const REFRESH_S = 1;
const SEEKING_STRETCH_S = 10;
/** An open plateau's noise is taken in by stretches of this length. */
export const SEGMENT_S = 8;
/** Rounding errors of a reading that hardly moves last about this long. */
const ROUNDING_S = 0.5;
/** A stretch that moves by more than this share of its level is no stretch of noise. */
const MOST_MOVE = 0.1;

/** Noise of the newest stretch of a track, in units of its level; null when it moves. */
function noiseOf(
  track: Track,
  asked: { period_s: number; length_s: number; memory: NoiseMemory },
): NoiseModel | null {
  const { period_s, length_s, memory } = asked;
  const from = newest(track, Math.round(length_s / period_s));
  const count = track.to - from;
  const level = Math.abs(driveMean(track, from));
  const move = Math.abs(driveSlope(track, from)) * count;
  if (count < 4 || level === 0 || move > MOST_MOVE * level) return null;
  const known = { period_s, lag_s: track.lag_s, prior: priorOf(memory), wanders: false };
  return fitNoise(detrend(driveIn(track, from, level)), known);
}

function rounded(state: Detector, track: Track, noise: NoiseModel): NoiseModel {
  return atLeastRounding(noise, resolutionOf(state, track.column) / track.level, ROUNDING_S);
}

/** While seeking: the newest stretch, as far as the session finds it believable. */
export function refreshBeliefs(state: Detector, { tracks, period_s, time_s }: Sight): void {
  if (time_s - state.beliefs_s < REFRESH_S) return;
  state.beliefs_s = time_s;
  for (const track of tracks) {
    const memory = state.memories[track.column]!;
    const noise = noiseOf(track, { period_s, length_s: SEEKING_STRETCH_S, memory });
    const expected = expectedNoise(memory, raiseOf(track, period_s));
    const belief = noise === null ? expected : believable(memory, noise);
    state.beliefs[track.column] = rounded(state, track, belief);
  }
}

/**
 * While a plateau is open: stretch by stretch, so that a change cannot pass for noise. Whether a
 * stretch was over.
 */
export function learnFromPlateau(state: Detector, { tracks, period_s, time_s }: Sight): boolean {
  if (time_s - state.learnt_s < SEGMENT_S) return false;
  state.learnt_s = time_s;
  for (const track of tracks) {
    const memory = state.local[track.column]!;
    const noise = noiseOf(track, { period_s, length_s: SEGMENT_S, memory });
    if (noise !== null) {
      learnNoise(memory, noise, priorOf(memory));
      learnOwn(memory, noise);
    }
    const expected = expectedNoise(memory, raiseOf(track, period_s));
    state.beliefs[track.column] = rounded(state, track, expected);
  }
  return true;
}
