/** What the page says: what still moves, how long it may take, and why it may never settle. */
import { varianceOfMean, varianceOfSlope } from '../../metrology/type-a/noise-model.ts';
import { meanOf } from '../../metrology/type-a/series.ts';
import type { ChannelMotion, Estimate, Judgement } from '../plateau.ts';
import { threadsOf } from '../threads.ts';
import { REFRESH_S } from './beliefs.ts';
import { POWER, WIND } from './block.ts';
import { CYCLE_WINDOW_S } from './cycle.ts';
import { columnOf, indexSince } from './history.ts';
import { CONCLUSIVE_ERROR_PER_S } from './flatness.ts';
import { evaluate } from './record.ts';
import { goesOnRamping, swingsWhileSeeking } from './seek.ts';
import { windBlows, withContext, type Sight } from './sight.ts';
import { TOLERANCE, toleranceOf, type Detector } from './state.ts';
import { driveMean, driveSlope, LEAST_LEVEL, newest, readingMean, type Track } from './track.ts';

/** The stretch over which motion is seen, and the newest part of it, which gives the level. */
const MOTION_S = 5;
const LEVEL_S = 1;
/** In standard errors. */
const MOTION_Z = 2.5;
/** Off by more than this share of the level: moving, not settling. */
const FAR = 0.05;
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
/** The window whose slices are drawn as threads. */
const THREADS_S = 10;

interface Motion {
  readonly shown: ChannelMotion;
  /** Distance from where the reading is going, as a share of the level. */
  readonly off: number;
  /** Seconds until the approach is within the tolerance. */
  readonly wait_s: number;
}

function motionOf(state: Detector, track: Track, period_s: number): Motion {
  const { column, channel, lag_s } = track;
  const from = newest(track, Math.max(Math.round(MOTION_S / period_s), 3));
  const length_s = (track.to - from) * period_s;
  const mean = Math.abs(driveMean(track, from));
  const slope_per_s = driveSlope(track, from) / Math.max(mean, LEAST_LEVEL) / period_s;
  const latest = Math.max(Math.round(LEVEL_S / period_s), 1);
  const level = readingMean(track, Math.max(track.to - latest, track.from), track.to);
  const goal = driveMean(track, newest(track, 2 * latest));
  const noise = state.beliefs[column]!;
  const slopeError_per_s = Math.sqrt(varianceOfSlope(noise, length_s));
  const tolerance = toleranceOf(state, column, Math.max(Math.abs(goal), LEAST_LEVEL));
  const off = goal === 0 ? 0 : (goal - level) / Math.abs(goal);
  const offError = Math.sqrt(varianceOfMean(noise, 2 * LEVEL_S));
  const approaches = lag_s > 0 && Math.abs(off) > tolerance + MOTION_Z * offError;
  const size = Math.abs(slope_per_s);
  const creeps = size > MOTION_Z * slopeError_per_s && size * length_s > tolerance;
  const perSecond = approaches ? (off / lag_s) * Math.abs(goal) : slope_per_s * mean;
  const unsure = Math.sqrt(varianceOfMean(noise, length_s)) > 3 * tolerance;
  const swinging = (state.telling.seen || state.deciding.seen) && column !== WIND;
  const going = perSecond > 0 ? 'rising' : 'falling';
  const settledOr = unsure ? 'unsteady' : 'still';
  const motion = swinging ? 'unsteady' : approaches || creeps ? going : settledOr;
  const wait_s = approaches ? lag_s * Math.log(Math.abs(off) / tolerance) : 0;
  const far = approaches ? Math.abs(off) : creeps ? size * length_s : 0;
  return { shown: { channel, motion, level, slope_per_s: perSecond }, off: far, wait_s };
}

/** How long a window must be, in a perfectly steady rig with this noise, to be called settled. */
function windowNeeded_s(state: Detector, track: Track): number {
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

function remaining_s(
  state: Detector,
  sight: Sight,
  motions: readonly Motion[],
): number | null {
  const available_s = sight.count * sight.period_s;
  const needed_s = sight.tracks.map((track) =>
    track.column === WIND ? 0 : windowNeeded_s(state, track),
  );
  const waits_s = motions.map((one) => one.wait_s);
  const left_s = Math.max(...waits_s, Math.max(...needed_s) - available_s);
  return Number.isFinite(left_s) ? Math.max(left_s, 0) : null;
}

/** Running mean of power; its noise is looked into again when a fifth of it is new. */
function powerNow(state: Detector, sight: Sight, powers: readonly number[]): Estimate | null {
  const level = powers.length > 0 ? Math.abs(meanOf(powers)) : 0;
  if (level === 0) return null;
  const length_s = powers.length * sight.period_s;
  const stale = sight.time_s - state.power_s >= Math.max(REFRESH_S, length_s / 5);
  const { estimate, noise } = evaluate({
    values: powers,
    period_s: sight.period_s,
    scale: level,
    lag_s: Math.min(Math.exp(state.lag.logLag), length_s / 4),
    floor: 0,
    memory: state.meanMemories[POWER]!,
    known: stale ? null : state.powerNoise,
  });
  if (stale) state.power_s = sight.time_s;
  state.powerNoise = noise;
  return estimate;
}

function phaseOf(
  state: Detector,
  { time_s }: Sight,
  asked: { idle: boolean; motions: readonly Motion[]; cause: Judgement['cause'] },
): Judgement['phase'] {
  const { idle, motions, cause } = asked;
  if (state.record !== null) return 'settled';
  if (idle) return 'idle';
  if (cause !== null && time_s - state.tryingSince_s > TRYING_S) return 'unsettled';
  return Math.max(0, ...motions.map((one) => one.off)) > FAR ? 'moving' : 'settling';
}

/** Whether a rotor's reading has just been sent somewhere new; a cycle goes nowhere. */
function isSentElsewhere(state: Detector, { tracks, period_s }: Sight): boolean {
  const lead = tracks.find((track) => track.lag_s > 0);
  if (lead === undefined || state.telling.seen) return false;
  const stretch = Math.max(Math.round(NEW_STRETCH_S / period_s), 1);
  const apart = Math.max(Math.round(NEW_APART_S / period_s), 1);
  const context = withContext(state, lead, 2 * stretch + apart, period_s);
  const { from, to } = context;
  if (to - from < 2 * stretch + apart) return false;
  const now = Math.abs(readingMean(context, to - stretch, to));
  const before = Math.abs(readingMean(context, from, from + stretch));
  const error = Math.sqrt(2 * varianceOfMean(state.beliefs[lead.column]!, NEW_STRETCH_S));
  return Math.abs(now - before) > (NEW_LEVEL + NEW_Z * error) * Math.max(now, before);
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
  if (time_s - state.tryingSince_s < THREADS_S) return;
  const count = Math.min(Math.round(THREADS_S / sight.period_s), sight.count - 1);
  state.ramps = goesOnRamping(state, sight, count, ramped);
  if (ramped && !state.ramps) state.tryingSince_s = swung_s;
}

/** Why it does not settle; null when nothing that is seen tells. */
function causeOf(state: Detector, sight: Sight): Judgement['cause'] {
  if (state.telling.seen) return 'cycle';
  if (state.ramps) return 'drift';
  const gusty = sight.tracks.some(
    (track) => track.column !== WIND && windowNeeded_s(state, track) > THREADS_S,
  );
  return gusty ? 'gusts' : null;
}

export function judge(state: Detector, sight: Sight, idle: boolean): Judgement {
  const motions = sight.tracks.map((track) => motionOf(state, track, sight.period_s));
  noteTrying(state, sight, idle);
  const cause = causeOf(state, sight);
  const phase = phaseOf(state, sight, { idle, motions, cause });
  const { blocks } = sight;
  const from = Math.max(blocks.length - Math.round(THREADS_S / sight.period_s), 0);
  const powers = columnOf(blocks, POWER, from);
  // While a plateau is open, the mean is of it alone: nothing of the way there belongs to it.
  const opened_s = state.record?.blocks[0]?.start_s ?? -Infinity;
  const since = indexSince(state.history, opened_s);
  const power_W = powerNow(state, sight, since > from ? columnOf(blocks, POWER, since) : powers);
  return {
    time_s: sight.time_s,
    phase,
    channels: motions.map((one) => one.shown),
    threads: power_W === null ? [] : threadsOf(powers, 2 * TOLERANCE * Math.abs(power_W.mean)),
    power_W,
    rotorStill: sight.still,
    windBlows: windBlows(sight),
    remaining_s: phase === 'settling' ? remaining_s(state, sight, motions) : null,
    cause: phase === 'unsettled' ? cause : null,
  };
}
