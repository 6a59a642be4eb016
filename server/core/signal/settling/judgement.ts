/** What people are shown: what still moves, how long it may take, and the power so far. */
import { meanOf } from '../../metrology/type-a/series.ts';
import type { Estimate, Judgement, Thread, Verdict } from '../plateau.ts';
import { threadsOf } from '../threads.ts';
import { REFRESH_S } from './beliefs.ts';
import { POWER, WIND } from './block.ts';
import { lagOver } from './evaluation.ts';
import { columnOf, indexSince } from './history.ts';
import { motionOf, type Motion } from './motion.ts';
import { evaluate } from './record.ts';
import { TOLERANCE, type Detector, type Look, type Sight } from './state.ts';
import { isSeenSwinging } from './swing.ts';
import { windowNeeded_s } from './verdict.ts';

/** Off by more than this share of the level: moving, not settling. */
const FAR = 0.05;
/** The window whose slices are drawn as threads. */
const THREADS_S = 10;

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
    gusts: null,
    known: stale ? null : state.powerNoise,
  });
  if (stale) state.power_s = sight.time_s;
  state.powerNoise = noise;
  return estimate;
}

function phaseOf(
  standing: Verdict['standing'],
  motions: readonly Motion[],
  swinging: boolean,
): Judgement['phase'] {
  if (standing !== 'seeking') return standing;
  const far = Math.max(0, ...motions.map((one) => one.off)) > FAR;
  return far || swinging ? 'moving' : 'settling';
}

/** Slices of power; of a swing none is joined, for its crest is no level. */
function slicesOf(powers: readonly number[], mean_W: number, swinging: boolean): readonly Thread[] {
  const threads = threadsOf(powers, 2 * TOLERANCE * Math.abs(mean_W));
  return swinging ? threads.map((thread) => ({ ...thread, joined: false })) : threads;
}

/** What was decided last, with the figures that people are shown; they decide nothing. */
export function judge(state: Detector, { sight, verdict }: Look): Judgement {
  const { blocks, period_s } = sight;
  const swinging = state.record === null && isSeenSwinging(state, sight);
  const motions = sight.tracks.map((track) => motionOf(state, track, { period_s, swinging }));
  const phase = phaseOf(verdict.standing, motions, swinging);
  const from = Math.max(blocks.length - Math.round(THREADS_S / period_s), 0);
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
    threads: power_W === null ? [] : slicesOf(powers, power_W.mean, swinging),
    power_W,
    rotorStill,
    windBlows,
    remaining_s: phase === 'settling' ? remaining_s(state, sight, motions) : null,
    cause,
  };
}
