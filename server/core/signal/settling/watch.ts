/** While a plateau is open: has it been left, when, and in what manner? */
import { learnFromPlateau } from './beliefs.ts';
import { WIND } from './block.ts';
import { droopRate, findChange, findDrift, standardBy, type Standard } from './change.ts';
import { CYCLE_WINDOW_S } from './cycle.ts';
import { judgeDeparture, type Departure } from './departure.ts';
import type { PlateauRecord } from './record.ts';
import { isRotorStill, turnsSince } from './sight.ts';
import { resolutionOf, toleranceOf, type Detector, type Sight } from './state.ts';
import { swings } from './swing.ts';
import type { Track } from './track.ts';

/** A cycle must stand this far above the noise to end a plateau. */
const CYCLE_CONTRAST = 8;
/** A change that shows sooner is a step, whatever its shape. */
const SOON_S = 2.5;
/**
 * A change of less than this many limits must have been seen for longer than this: what noise alone
 * takes there does not stay. While it is not seen, a tenth of the time counts back.
 */
const CLEAR_CHANGE = 1.2;
const LASTING_S = 0.5;
const FADING = 0.1;
/** While nothing stands out, a look is left out if there was one so shortly before, s. */
const RESTING_S = 0.3;
/** A still rotor that has turned for so many blocks turns. */
const TURNING_BLOCKS = 3;

/**
 * An anemometer counts pulses and holds its counts: its noise is rougher than any model of it, by
 * this much in the logarithm of its variance; and a wind that matters moves the voltage too.
 */
const ANEMOMETER_DOUBT = Math.log(2.5);
/**
 * Gusts behind a rotor are nearly white in its drive: a few seconds show what they do in many. Of
 * noise that does not pass it only the lowest frequencies tell, and a slow wander may lie below.
 */
const OWN_DOUBT = 0.25;

/** Up to when the plateau lasted, and how it was left. */
export interface Leaving {
  readonly end_s: number;
  readonly manner: Departure['manner'];
  /** Whether it is beyond doubt at once. */
  readonly clear: boolean;
}

export function watch(state: Detector, record: PlateauRecord, sight: Sight): Leaving | null {
  if (learnFromPlateau(state, sight)) record.standards = [];
  const { blocks, from, time_s } = sight;
  if (record.rotorStill && !isRotorStill(state, Math.max(blocks.length - TURNING_BLOCKS, 0))) {
    // It may have run up for seconds that looked like a spark at first.
    const end = Math.min(turnsSince(state), blocks.length - TURNING_BLOCKS);
    return { end_s: blocks[end]!.start_s, manner: 'step', clear: true };
  }
  if (state.doubted_s === 0 && time_s - record.watched_s < RESTING_S) return null;
  record.watched_s = time_s;
  const leaving = lastingChange(state, record, sight);
  if (leaving !== null || !cycles(state, sight)) return leaving;
  const began_s = Math.max(time_s - CYCLE_WINDOW_S, blocks[from + 1]!.start_s);
  return { end_s: began_s, manner: 'step', clear: true };
}

/** The change of some channel that is clear at once or has lasted; null while there is none. */
function lastingChange(state: Detector, record: PlateauRecord, sight: Sight): Leaving | null {
  const { tracks, period_s, time_s } = sight;
  const droop_per_s = droopRate(time_s - state.started_s);
  let doubtful = false;
  for (const track of tracks) {
    const leaving = leavingOf(state, record, sight, { track, droop_per_s });
    if (leaving === null) continue;
    if (leaving.clear || state.doubted_s + period_s > LASTING_S) return leaving;
    doubtful = true;
  }
  const passed_s = doubtful ? period_s : -FADING * period_s;
  state.doubted_s = Math.max(state.doubted_s + passed_s, 0);
  return null;
}

function cycles(state: Detector, sight: Sight): boolean {
  const { deciding: look, local: memories } = state;
  return swings(state, sight, { look, memories, contrast: CYCLE_CONTRAST });
}

/** What a change of a column must stand out from, by what is believed of its noise now. */
function standardOf(state: Detector, column: number): Standard {
  const believed = state.beliefs[column]!;
  const doubt =
    column === WIND ? ANEMOMETER_DOUBT : OWN_DOUBT / (1 + Math.exp(-state.local[column]!.logOwn));
  return standardBy({ ...believed, logLevel: believed.logLevel + doubt });
}

function leavingOf(
  state: Detector,
  record: PlateauRecord,
  { period_s, blocks, from }: Sight,
  { track, droop_per_s }: { track: Track; droop_per_s: number },
): Leaving | null {
  const { column, level, lag_s } = track;
  const standard = (record.standards[column] ??= standardOf(state, column));
  const seen = {
    track,
    period_s,
    standard,
    tolerance: toleranceOf(state, column, level),
    droop_per_s,
    rounding_s: (resolutionOf(state, column) / level) * lag_s,
  };
  const change = findChange(seen);
  const drifts = change === null && column !== WIND && findDrift(seen);
  if (change === null && !drifts) return null;
  const departure = judgeDeparture(track, period_s);
  if (drifts && departure.manner === 'step') return null;
  const end_s = blocks[Math.min(from + departure.at, blocks.length - 1)]!.start_s;
  const slowly = change === null || change.newest * period_s > SOON_S;
  const clear = change === null || change.size >= CLEAR_CHANGE;
  return { end_s, manner: slowly ? departure.manner : 'step', clear };
}
