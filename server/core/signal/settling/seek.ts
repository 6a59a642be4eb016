/** While no plateau is open: is all flat, has the approach ended, is it no piece of a ramp? */
import { varianceOfSlope } from '../../metrology/type-a/noise-model.ts';
import { refreshBeliefs, SEGMENT_S } from './beliefs.ts';
import { WIND } from './block.ts';
import { rampThrough, stepsClearly } from './departure.ts';
import { isFlat } from './flatness.ts';
import { fitLag, fitLagEvenly, learnLag } from './lag.ts';
import { memoryWithin } from './noise-memory.ts';
import { openRecord, type PlateauRecord } from './record.ts';
import { STILL_WINDOW_S } from './rest.ts';
import { withContext } from './sight.ts';
import { toleranceOf, type CycleLook, type Detector, type Sight } from './state.ts';
import { swings, swingsWithin } from './swing.ts';
import {
  driveMean,
  driveSlope,
  LEAST_LEVEL,
  newest,
  readingMean,
  type Track,
} from './track.ts';

/** Windows that are tried, shortest first. */
const LADDER_S = [2.4, 3, 3.8, 4.8, 6, 7.5, 9.4, 11.7, 14.6, 18.3, 22.9, 28.6];
const LEAST_BLOCKS = 5;
/** So many blocks in a row must agree. */
const DWELL_BLOCKS = 3;
/**
 * ln of the odds for stillness against a ramp. Just after a creep they must be clearer; that fades
 * within such a time, for it says ever less of what is seen now.
 */
const EVIDENCE = Math.log(1.5);
const CLEAR_EVIDENCE = Math.log(6);
const FADES_WITHIN_S = 40;
/** How far back a ramp is looked for, in windows; ln of the odds that rule it out. */
const REACHES = [1.5, 2, 3];
const RAMP_ODDS = 3;
/** ln of the odds at which a ramp is seen to go on, and at which it is seen to have ended. */
const RAMP_SEEN = 1;
const RAMP_OVER = -2;
/** Most of the approach, in tolerances, that may still come; lags are known within a tenth. */
const MOST_REMAINING = 0.7;
const LAG_DOUBT = 1.1;
/** A cycle must stand this far above the noise to keep from settling. */
const CYCLE_CONTRAST = 4;

/** ln of the odds that stillness needs now. */
function evidenceWanted({ suspicious, origin_s }: Detector, { time_s }: Sight): number {
  if (!suspicious) return EVIDENCE;
  const fading = Math.exp((origin_s - time_s) / FADES_WITHIN_S);
  return EVIDENCE + (CLEAR_EVIDENCE - EVIDENCE) * fading;
}

/** A level that was gone to by a clear step is no piece of what crept before it. */
function noteStep(state: Detector, { tracks, period_s }: Sight): void {
  const lead = tracks.find((track) => track.lag_s > 0);
  if (!state.suspicious || lead === undefined) return;
  const longRunVariance = Math.exp(state.beliefs[lead.column]!.logLevel);
  if (stepsClearly(lead, { period_s, longRunVariance })) state.suspicious = false;
}

/** Whether the newest `count` blocks of one channel are flat. */
function isTrackFlat(
  state: Detector,
  track: Track,
  { count, period_s, evidence }: { count: number; period_s: number; evidence: number },
): boolean {
  const from = newest(track, count);
  const level = Math.max(Math.abs(driveMean(track, from)), LEAST_LEVEL);
  return isFlat(track, from, {
    period_s,
    noise: state.beliefs[track.column]!,
    tolerance: toleranceOf(state, track.column, level),
    evidence: track.column === WIND ? -Infinity : evidence,
  });
}

/** Shortest window over which every channel is flat, in blocks; 0 when there is none. */
function flatWindow(state: Detector, sight: Sight): number {
  const { tracks, period_s, still } = sight;
  if (tracks.length === 0) return 0;
  const evidence = evidenceWanted(state, sight);
  for (const length_s of LADDER_S) {
    const count = Math.round(length_s / period_s);
    if (count > sight.count) return 0;
    if (count < LEAST_BLOCKS || (still && length_s < STILL_WINDOW_S)) continue;
    const asked = { count, period_s, evidence };
    if (tracks.every((track) => isTrackFlat(state, track, asked))) return count;
  }
  return 0;
}

/** How far the reading stood from the drive's level when the window began, in tolerances. */
function startingOffset(state: Detector, track: Track, count: number): number {
  const level = driveMean(track, newest(track, count));
  const at = track.to - count;
  const start = readingMean(track, Math.max(at - 1, track.from), Math.min(at + 2, track.to));
  return Math.abs(start / level - 1) / toleranceOf(state, track.column, Math.abs(level));
}

/** How much of the approach is still to come, in tolerances, for the channel furthest off. */
function remainingOf(state: Detector, { tracks, period_s }: Sight, count: number): number {
  return tracks.reduce((most, track) => {
    if (track.lag_s === 0) return most;
    const decay = Math.exp((-count * period_s) / (LAG_DOUBT * track.lag_s));
    return Math.max(most, startingOffset(state, track, count) * decay);
  }, 0);
}

/** How long after the window's beginning the approach had come within the tolerance. */
function approachLength_s(state: Detector, { tracks }: Sight, count: number): number {
  return tracks.reduce((longest, track) => {
    const offset = track.lag_s === 0 ? 0 : startingOffset(state, track, count);
    return offset > 1 ? Math.max(longest, track.lag_s * Math.log(offset)) : longest;
  }, 0);
}

/**
 * Whether the window may be a piece of a slow ramp that reaches further back, past the last
 * change: then its flatness alone must speak clearly against the ramp's slope.
 */
function isOnRamp(state: Detector, sight: Sight, count: number): boolean {
  return rampOdds(state, sight, count) > -RAMP_ODDS;
}

/** Whether the newest `count` blocks speak for such a ramp; it must be refuted to have ended. */
export function goesOnRamping(
  state: Detector,
  sight: Sight,
  count: number,
  ramped: boolean,
): boolean {
  return rampOdds(state, sight, count) > (ramped ? RAMP_OVER : RAMP_SEEN);
}

/**
 * ln of the odds for a ramp that reaches further back than the newest `count` blocks against
 * stillness in them, by their slope; −Infinity when nothing looks like a ramp.
 */
function rampOdds(state: Detector, { tracks, period_s }: Sight, count: number): number {
  const lead = tracks.find((track) => track.lag_s > 0);
  if (lead === undefined) return -Infinity;
  const noise = state.beliefs[lead.column]!;
  const context = withContext(state, lead, 3 * count, period_s);
  const from = newest(context, count);
  const level = driveMean(context, from);
  const slope = driveSlope(context, from) / level / period_s;
  const variance = varianceOfSlope(noise, count * period_s);
  const known = { period_s, longRunVariance: Math.exp(noise.logLevel), level };
  return REACHES.reduce((most, reach) => {
    const start = context.to - Math.round(reach * count);
    if (start < context.begin) return most;
    const ramp = rampThrough(context, start, known);
    const odds = (slope ** 2 - (slope - ramp) ** 2) / (2 * variance);
    return ramp === 0 ? most : Math.max(most, odds);
  }, -Infinity);
}

/** How far back from the window the readings belong to it: in blocks before its start. */
function walkBack(state: Detector, sight: Sight, count: number): number {
  const { tracks, period_s } = sight;
  const chunk = Math.max(Math.round(1 / period_s), 1);
  let extra = 0;
  while (count + extra + chunk <= sight.count) {
    const fits = tracks.every((track) => {
      const { column } = track;
      const level = driveMean(track, newest(track, count + extra));
      const end = track.to - count - extra;
      const older = driveMean(track, newest(track, count + extra + chunk), end);
      const { logLevel, time_s } = state.beliefs[column]!;
      const error = Math.sqrt(Math.exp(logLevel) / (chunk * period_s + 2 * time_s));
      const tolerance = toleranceOf(state, column, Math.abs(level));
      return Math.abs(older / level - 1) <= 0.7 * tolerance + error;
    });
    if (!fits) break;
    extra += chunk;
  }
  return extra;
}

export function swingsWhileSeeking(state: Detector, sight: Sight, look: CycleLook): boolean {
  return swings(state, sight, { look, memories: state.memories, contrast: CYCLE_CONTRAST });
}

/** Opens a record when everything has been flat for long enough; null otherwise. */
export function seek(state: Detector, sight: Sight): PlateauRecord | null {
  refreshBeliefs(state, sight);
  noteStep(state, sight);
  const count = flatWindow(state, sight);
  const settled =
    count > 0 &&
    remainingOf(state, sight, count) <= MOST_REMAINING &&
    !isOnRamp(state, sight, count) &&
    !swingsWhileSeeking(state, sight, state.deciding) &&
    !swingsWithin(state, sight, { count, contrast: CYCLE_CONTRAST });
  state.passes = settled ? state.passes + 1 : 0;
  return state.passes < DWELL_BLOCKS ? null : open(state, sight, count);
}

function open(state: Detector, sight: Sight, count: number): PlateauRecord {
  const { blocks, time_s, period_s, still, tracks } = sight;
  const reach = count + (still ? 0 : walkBack(state, sight, count));
  const skipped = Math.ceil(approachLength_s(state, sight, reach) / period_s);
  const length = Math.max(reach - skipped, LEAST_BLOCKS);
  const approach = tracks.find((track) => track.lag_s > 0);
  const shown_s = approach === undefined ? null : fitLag(approach.course, approach.from, period_s);
  if (shown_s !== null) learnLag(state.lag, shown_s);
  const own_s =
    approach === undefined ? null : fitLagEvenly(approach.course, approach.from, period_s);
  state.suspicious = false;
  state.doubted_s = 0;
  state.learnt_s = time_s - Math.min(length * period_s, SEGMENT_S);
  state.local = state.memories.map(memoryWithin);
  const lag_s = own_s ?? Math.exp(state.lag.logLag);
  return openRecord(blocks.slice(-length), { declared_s: time_s, rotorStill: still, lag_s });
}
