/** What people are shown: what still moves, how long it may take, and the power so far. */
import { varianceOfMean, varianceOfSlope } from '../../metrology/type-a/noise-model.ts';
import { meanOf } from '../../metrology/type-a/series.ts';
import type { ChannelMotion, Estimate, Judgement, Verdict } from '../plateau.ts';
import { threadsOf } from '../threads.ts';
import { REFRESH_S } from './beliefs.ts';
import { POWER, WIND } from './block.ts';
import { lagOver } from './evaluation.ts';
import { columnOf, indexSince } from './history.ts';
import { evaluate } from './record.ts';
import { TOLERANCE, toleranceOf, type Detector, type Look, type Sight } from './state.ts';
import {
  driveMean,
  driveSlope,
  LEAST_LEVEL,
  LEVEL_S,
  levelNow,
  newest,
  type Track,
} from './track.ts';
import { windowNeeded_s } from './verdict.ts';

/** The stretch over which motion is seen. */
const MOTION_S = 5;
/** In standard errors. */
const MOTION_Z = 2.5;
/** Off by more than this share of the level: moving, not settling. */
const FAR = 0.05;
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
  const level = levelNow(track, period_s);
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
    lag_s: lagOver(state, length_s),
    floor: () => 0,
    memory: state.meanMemories[POWER]!,
    known: stale ? null : state.powerNoise,
  });
  if (stale) state.power_s = sight.time_s;
  state.powerNoise = noise;
  return estimate;
}

function phaseOf(standing: Verdict['standing'], motions: readonly Motion[]): Judgement['phase'] {
  if (standing !== 'seeking') return standing;
  return Math.max(0, ...motions.map((one) => one.off)) > FAR ? 'moving' : 'settling';
}

/** What was decided last, with the figures that people are shown; they decide nothing. */
export function judge(state: Detector, { sight, verdict }: Look): Judgement {
  const motions = sight.tracks.map((track) => motionOf(state, track, sight.period_s));
  const phase = phaseOf(verdict.standing, motions);
  const { blocks } = sight;
  const from = Math.max(blocks.length - Math.round(THREADS_S / sight.period_s), 0);
  const powers = columnOf(blocks, POWER, from);
  // While a plateau is open, the mean is of it alone: nothing of the way there belongs to it.
  const opened_s = state.record?.blocks[0]?.start_s ?? -Infinity;
  const since = indexSince(state.history, opened_s);
  const power_W = powerNow(state, sight, since > from ? columnOf(blocks, POWER, since) : powers);
  const { time_s, cause, rotorStill, windBlows } = verdict;
  return {
    time_s,
    phase,
    channels: motions.map((one) => one.shown),
    threads: power_W === null ? [] : threadsOf(powers, 2 * TOLERANCE * Math.abs(power_W.mean)),
    power_W,
    rotorStill,
    windBlows,
    remaining_s: phase === 'settling' ? remaining_s(state, sight, motions) : null,
    cause,
  };
}
