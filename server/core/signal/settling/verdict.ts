/** What is decided at each look, and how long it has been trying in vain. */
import { varianceOfMean, varianceOfSlope } from '../../metrology/type-a/noise-model.ts';
import type { Verdict } from '../plateau.ts';
import { WIND } from './block.ts';
import { CYCLE_WINDOW_S } from './cycle.ts';
import { CONCLUSIVE_ERROR_PER_S } from './flatness.ts';
import { goesOnRamping, swingsWhileSeeking } from './seek.ts';
import { windBlows } from './sight.ts';
import { TOLERANCE, toleranceOf, type Detector, type Sight } from './state.ts';
import { levelNow, readingMean, type Track } from './track.ts';

/** It has tried for long. */
const TRYING_S = 30;
/**
 * A reading whose mean over a stretch differs by more than this share from that of the stretch
 * that ended some seconds before has been sent somewhere new: no ramp is so fast. Gusts come on
 * top.
 */
const NEW_LEVEL = 0.15;
const NEW_Z = 2.5;
const NEW_STRETCH_S = 2;
const NEW_APART_S = 3;
/** A ramp is looked for over such a stretch; gusts that need a longer one are too strong. */
const LONG_S = 10;

/** How long a window must be, in a perfectly steady rig with this noise, to be called settled. */
export function windowNeeded_s(state: Detector, track: Track): number {
  const noise = state.beliefs[track.column]!;
  const scale = toleranceOf(state, track.column, track.level) / TOLERANCE;
  const most = (CONCLUSIVE_ERROR_PER_S * scale) ** 2;
  let [enough_s, short_s] = [30, 2.4];
  if (varianceOfSlope(noise, short_s) <= most) return short_s;
  while (enough_s > 1.05 * short_s) {
    const middle_s = Math.sqrt(enough_s * short_s);
    if (varianceOfSlope(noise, middle_s) <= most) enough_s = middle_s;
    else short_s = middle_s;
  }
  return enough_s;
}

/** Whether a rotor's reading has just been sent somewhere new; a cycle goes nowhere. */
function isSentElsewhere(state: Detector, { tracks, period_s }: Sight): boolean {
  const lead = tracks.find((track) => track.lag_s > 0);
  if (lead === undefined || state.telling.seen) return false;
  const stretch = Math.max(Math.round(NEW_STRETCH_S / period_s), 1);
  const apart = Math.max(Math.round(NEW_APART_S / period_s), 1);
  // As far as it is remembered: past the last change.
  const readings = { course: state.history.courses[lead.column]! };
  const to = readings.course.values.length;
  const length = 2 * stretch + apart;
  if (to < length) return false;
  const from = Math.max(to - length - 1, 0);
  const now = Math.abs(readingMean(readings, to - stretch, to));
  const before = Math.abs(readingMean(readings, from, from + stretch));
  const change = Math.abs(now - before);
  const level = Math.max(now, before);
  // Nearly always it is little beside any noise.
  if (change <= NEW_LEVEL * level) return false;
  const error = Math.sqrt(2 * varianceOfMean(state.beliefs[lead.column]!, NEW_STRETCH_S));
  return change > (NEW_LEVEL + NEW_Z * error) * level;
}

/** Trying begins anew with every new level, and where a ramp has come to its end. */
function noteTrying(state: Detector, sight: Sight, idle: boolean): void {
  const { time_s } = sight;
  const ramped = state.ramps;
  state.ramps = false;
  const seeks = !idle && state.record === null;
  const long = sight.count * sight.period_s >= CYCLE_WINDOW_S;
  const swings = seeks && long && swingsWhileSeeking(state, sight, state.telling);
  if (!swings) state.telling.seen = false;
  if (idle || isSentElsewhere(state, sight)) state.tryingSince_s = NaN;
  else if (Number.isNaN(state.tryingSince_s)) state.tryingSince_s = time_s;
  if (!seeks || Number.isNaN(state.tryingSince_s)) return;
  // A cycle that is seen has gone on for as long as it was looked for.
  const swung_s = swings ? time_s - CYCLE_WINDOW_S : time_s;
  state.tryingSince_s = Math.min(state.tryingSince_s, swung_s);
  if (time_s - state.tryingSince_s < LONG_S) return;
  const count = Math.min(Math.round(LONG_S / sight.period_s), sight.count - 1);
  state.ramps = goesOnRamping(state, sight, count, ramped);
  if (ramped && !state.ramps) state.tryingSince_s = swung_s;
}

/** Why it does not settle; null when nothing that is seen tells. */
function causeOf(state: Detector, sight: Sight): Verdict['cause'] {
  if (state.telling.seen) return 'cycle';
  if (state.ramps) return 'drift';
  const gusty = sight.tracks.some(
    (track) => track.column !== WIND && windowNeeded_s(state, track) > LONG_S,
  );
  return gusty ? 'gusts' : null;
}

function standingOf(idle: boolean, open: boolean, cause: Verdict['cause']): Verdict['standing'] {
  if (open) return 'settled';
  if (idle) return 'idle';
  return cause === null ? 'seeking' : 'unsettled';
}

export function decide(state: Detector, sight: Sight, idle: boolean): Verdict {
  noteTrying(state, sight, idle);
  const { time_s, tracks, period_s, still } = sight;
  const open = state.record !== null;
  const inVain = !open && !idle && time_s - state.tryingSince_s > TRYING_S;
  const cause = inVain ? causeOf(state, sight) : null;
  return {
    time_s,
    standing: standingOf(idle, open, cause),
    cause,
    rotorStill: still,
    windBlows: windBlows(sight),
    levels: tracks.map((track) => ({ channel: track.channel, level: levelNow(track, period_s) })),
  };
}
