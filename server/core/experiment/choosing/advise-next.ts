/**
 * What to run next so that the best level is found with few trials, and when to stop.
 *
 * Two whole rounds first: one alone tells nothing of the scatter. Then a round of the levels that
 * may still be the best, then small sets of them, shared out by optimal computing budget allocation
 * (allocation.ts). A set is a block of its own, run in an order in which a steady drift cancels.
 */
import { effortOf } from './effort.ts';
import type { LevelKey, LevelTrial } from './level-trial.ts';
import { nextSet } from './next-set.ts';
import { standingOf, type Standing } from './standing.ts';

/** Whole rounds before levels are singled out. */
const WHOLE_ROUNDS = 2;
/** Rounds of those in the race before they are shared out: the third is judged most sharply. */
const RACE_ROUNDS = 3;
/** More trials than this are more than a lesson holds. Common practice, no source. */
const LESSON_TRIALS = 30;
/** No tie is called before so many trials a level. */
const TIE_ROUNDS = 3;

export interface Situation {
  /** Done so far, in their order. */
  readonly trials: readonly LevelTrial[];
  /** All levels in question, also those never tried. */
  readonly levels: readonly LevelKey[];
  /** Levels still to do in the block under way, in their order; empty where none is. */
  readonly left: readonly LevelKey[];
}

/**
 * Why a level is run: it was never tried; set anew to see how much that scatters; it may be the
 * best and can't be told from `from` yet.
 */
export type Reason =
  | { readonly kind: 'untried' }
  | { readonly kind: 'scatter' }
  | { readonly kind: 'close'; readonly from: LevelKey };

export interface AdvisedRun {
  readonly level: LevelKey;
  readonly reason: Reason;
}

export interface Advice {
  /**
   * `run`: go on. `settled`: the best is known, more runs won't change that. `tie`: what differs is
   * so little that a lesson won't show it; say that they tie.
   */
  readonly kind: 'run' | 'settled' | 'tie';
  /** The best, or those that tie, or those that are still in question; the leader first. */
  readonly among: readonly LevelKey[];
  /** What to run next, in this order; empty when settled. */
  readonly set: readonly AdvisedRun[];
  /** Whether the set begins a block, or goes on with the one under way. */
  readonly beginsBlock: boolean;
  /** About how many more trials settle it; null where nothing is known of the scatter yet. */
  readonly trialsNeeded: number | null;
}

export function adviseNext(situation: Situation): Advice {
  const standing = standingOf(situation.trials);
  const { best } = standing;
  const untried = situation.levels.some((level) => countOf(situation.trials, level) === 0);
  if (best !== null && !untried) {
    return { kind: 'settled', among: [best], set: [], beginsBlock: false, trialsNeeded: 0 };
  }
  return wholeRound(situation, standing) ?? contest(situation, standing);
}

/** The rounds in which every level has its turn; null once they are done. */
function wholeRound({ trials, levels, left }: Situation, standing: Standing): Advice | null {
  const done = levels.map((level) => countOf(trials, level));
  const least = Math.min(...done);
  if (least >= WHOLE_ROUNDS) return null;
  const open = levels.filter((_, i) => done[i] === least);
  // The second round backwards, so that a steady drift touches all levels alike.
  const round = least % 2 === 1 ? open.reverse() : open;
  const [alone] = round.length === 1 ? round : [];
  // A level by itself would be compared with nothing of its own time.
  const beside = standing.leader !== null && alone !== undefined && standing.leader !== alone;
  const order = left.length > 0 ? left : beside ? [...round, standing.leader] : round;
  const reasonInRound = (level: LevelKey): Reason => {
    if (beside && level !== alone) return { kind: 'close', from: alone };
    return { kind: countOf(trials, level) === 0 ? 'untried' : 'scatter' };
  };
  return {
    kind: 'run',
    among: inQuestion(standing, levels),
    set: order.map((level) => ({ level, reason: reasonInRound(level) })),
    beginsBlock: left.length === 0,
    trialsNeeded: null,
  };
}

/** A set of those that may be the best. */
function contest({ trials, levels, left }: Situation, standing: Standing): Advice {
  const among = inQuestion(standing, levels);
  const turning = among.filter((level) => standing.comparable.levels.includes(level));
  const [leader, ...rivals] = turning;
  if (leader === undefined || rivals.length === 0) {
    // Nothing turned, or the only one left does not always turn: more of it is all there is to do.
    const set = among.map((level) => ({ level, reason: { kind: 'scatter' as const } }));
    return { kind: 'run', among, set, beginsBlock: true, trialsNeeded: null };
  }
  const going = left.filter((level) => turning.includes(level));
  const inRace = Math.min(...turning.map((level) => countOf(trials, level)));
  const planned = inRace < RACE_ROUNDS ? turning : nextSet(standing, turning);
  const next = going.length > 0 ? going : planned;
  const effort = effortOf(standing, leader, rivals);
  const fewest = Math.min(...levels.map((level) => countOf(trials, level)));
  return {
    kind: (effort?.least ?? 0) > LESSON_TRIALS && fewest >= TIE_ROUNDS ? 'tie' : 'run',
    among,
    set: next.map((level) => ({
      level,
      reason: { kind: 'close', from: level === leader ? rivals[0]! : leader },
    })),
    beginsBlock: going.length === 0,
    trialsNeeded: effort?.likely ?? null,
  };
}

/** Those that may be the best: the leader, then from the highest down. */
function inQuestion(
  { possible, comparable, estimates }: Standing,
  all: readonly LevelKey[],
): LevelKey[] {
  const height = (level: LevelKey): number =>
    estimates[comparable.levels.indexOf(level)] ?? -Infinity;
  const tried = all.filter((level) => possible.includes(level));
  return tried.sort((a, b) => height(b) - height(a));
}

function countOf(trials: readonly LevelTrial[], level: LevelKey): number {
  return trials.filter((trial) => trial.level === level).length;
}
