/** While a plateau is open: has it been left, when, and in what manner? */
import { learnFromPlateau } from './beliefs.ts';
import { WIND } from './block.ts';
import { droopRate, findChange, findDrift } from './change.ts';
import { CYCLE_WINDOW_S } from './cycle.ts';
import { judgeDeparture, type Departure } from './departure.ts';
import type { PlateauRecord } from './record.ts';
import { isRotorStill, type Sight } from './sight.ts';
import { resolutionOf, toleranceOf, type Detector } from './state.ts';
import { swings } from './swing.ts';
import type { Track } from './track.ts';

/** A cycle must stand this far above the noise to end a plateau. */
const CYCLE_CONTRAST = 8;
/** A change that shows sooner is a step, whatever its shape. */
const SOON_S = 2.5;
/** A still rotor that has turned for so many blocks turns. */
const TURNING_BLOCKS = 3;

/**
 * An anemometer counts pulses and holds its counts: its noise is rougher than any model of it, by
 * this much in the logarithm of its variance; and a wind that matters moves the voltage too.
 */
const ANEMOMETER_DOUBT = Math.log(2.5);

/** Up to when the plateau lasted, and how it was left. */
export interface Leaving {
  readonly end_s: number;
  readonly manner: Departure['manner'];
}

export function watch(state: Detector, record: PlateauRecord, sight: Sight): Leaving | null {
  learnFromPlateau(state, sight);
  const { blocks, from, tracks, time_s } = sight;
  if (record.rotorStill && !isRotorStill(state, Math.max(blocks.length - TURNING_BLOCKS, 0))) {
    return { end_s: blocks.at(-TURNING_BLOCKS)!.start_s, manner: 'step' };
  }
  for (const track of tracks) {
    const leaving = leavingOf(state, sight, track);
    if (leaving !== null) return leaving;
  }
  if (!cycles(state, sight)) return null;
  return { end_s: Math.max(time_s - CYCLE_WINDOW_S, blocks[from + 1]!.start_s), manner: 'step' };
}

function cycles(state: Detector, sight: Sight): boolean {
  const { deciding: look, local: memories } = state;
  return swings(state, sight, { look, memories, contrast: CYCLE_CONTRAST });
}

function leavingOf(state: Detector, sight: Sight, track: Track): Leaving | null {
  const { period_s, blocks, from, time_s } = sight;
  const { column, level, lag_s } = track;
  const believed = state.beliefs[column]!;
  const noise =
    column === WIND ? { ...believed, logLevel: believed.logLevel + ANEMOMETER_DOUBT } : believed;
  const seen = {
    track,
    period_s,
    noise,
    tolerance: toleranceOf(state, column, level),
    droop_per_s: droopRate(time_s - state.started_s),
    rounding_s: (resolutionOf(state, column) / level) * lag_s,
  };
  const newest = findChange(seen);
  const drifts = newest === 0 && column !== WIND && findDrift(seen);
  if (newest === 0 && !drifts) return null;
  const departure = judgeDeparture(track, { period_s, longRunVariance: Math.exp(noise.logLevel) });
  if (drifts && departure.manner === 'step') return null;
  const end_s = blocks[Math.min(from + departure.at, blocks.length - 1)]!.start_s;
  const slowly = drifts || newest * period_s > SOON_S;
  return { end_s, manner: slowly ? departure.manner : 'step' };
}
