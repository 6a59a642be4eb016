/** A simulated experiment on a rig whose truth is known, and what the tool said of it on the way. */
import { adviseNext } from '#core/experiment/choosing/advise-next.ts';
import type { LevelTrial } from '#core/experiment/choosing/level-trial.ts';
import { standingOf } from '#core/experiment/choosing/standing.ts';
import { createRandom, shuffled, type Random } from '#core/virtual-rig/random.ts';
import { makeTrial, nextDrift, bestOf, type RigTruth } from './rig.ts';

/** What decides which levels the next block holds, in which order; empty: stop. */
export type Policy = (random: Random, done: readonly LevelTrial[], levels: readonly number[]) => number[];

/** Round after round of every level, each in an order of its own. */
export const equalRounds: Policy = (random, _done, levels) => shuffled(random, levels);

/** What the tool advises, until it says that it is settled. Ties are not believed: it goes on. */
export const advised: Policy = (_random, trials, levels) =>
  adviseNext({ trials, levels, left: [] }).set.map(({ level }) => Number(level));

/** A class of its own mind: after one round only the two that stand highest, over and over. */
export const twoHighest: Policy = (random, done, levels) => {
  if (done.length < levels.length) return equalRounds(random, done, levels);
  const { comparable, estimates } = standingOf(done);
  const places = [...estimates.keys()].sort((a, b) => estimates[b]! - estimates[a]!);
  return places.slice(0, 2).map((place) => Number(comparable.levels[place]));
};

export interface Look {
  readonly trials: number;
  readonly best: number | null;
  readonly leader: number;
  /** Whether a level that is truly best was ruled out. */
  readonly lost: boolean;
}

/** The looks after every trial, up to `most` trials or until a best is named. */
export function playExperiment(
  truth: RigTruth,
  { seed, policy, most, goOn }: {
    readonly seed: number;
    readonly policy: Policy;
    readonly most: number;
    /** Whether to go on after a best was named. Nobody goes on after a true best was lost. */
    readonly goOn: boolean;
  },
): Look[] {
  const random = createRandom(seed);
  // In an order of their own, so that none is favoured for being listed first.
  const levels = shuffled(random, truth.powers.map((_, level) => level));
  const bests = bestOf(truth);
  const trials: LevelTrial[] = [];
  const looks: Look[] = [];
  for (let block = 1; trials.length < most; block++) {
    const planned = policy(random, trials, levels);
    const set = planned.length > 0 ? planned : equalRounds(random, trials, levels);
    const factor = nextDrift(random, truth);
    for (const level of set) {
      trials.push(makeTrial(random, { truth, level, block, factor }));
      const { best, leader, possible } = standingOf(trials);
      const tried = bests.filter((one) => trials.some((trial) => trial.level === one));
      const lost = tried.some((one) => !possible.includes(one));
      looks.push({
        trials: trials.length,
        best: best === null ? null : Number(best),
        leader: Number(leader),
        lost,
      });
      if (trials.length >= most || lost || (best !== null && !goOn)) return looks;
    }
  }
  return looks;
}
