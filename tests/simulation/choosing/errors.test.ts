/** The claim of chooseBest, on rigs whose truth is known, looked at after every trial. */
import { describe, expect, it } from 'vitest';
import { ERROR_SHARE } from '#core/experiment/choosing/error-shares.ts';
import {
  advised,
  equalRounds,
  playExperiment,
  twoHighest,
  type Policy,
} from '../../bench/choosing/experiment.ts';
import type { RigTruth, Scatter } from '../../bench/choosing/rig.ts';
import { chanceOfSoFew } from './binomial.ts';

const EXPERIMENTS = 240;
const FIVE_PERCENT: Scatter = { kind: 'share', share: 0.05 };

function rig(powers: readonly number[], scatter = FIVE_PERCENT, outliers = 0): RigTruth {
  return { powers, scatter, outliers, drift: 0.03 };
}

interface Case {
  readonly what: string;
  readonly truth: RigTruth;
  readonly policy: Policy;
  /** Eight rounds, as many as there are levels in each. */
  readonly most: number;
  readonly experiments?: number;
}

const CASES: readonly Case[] = [
  { what: 'two that tie, whole rounds', truth: rig([100, 100]), policy: equalRounds, most: 16 },
  { what: 'five that tie, whole rounds', truth: rig([60, 60, 60, 60, 60]), policy: equalRounds, most: 40 },
  { what: 'five that tie, as advised', truth: rig([60, 60, 60, 60, 60]), policy: advised, most: 40 },
  { what: 'two of five tie, as advised', truth: rig([100, 100, 40, 30, 20]), policy: advised, most: 40 },
  {
    what: 'five that tie, the two highest only',
    truth: rig([60, 60, 60, 60, 60]),
    policy: twoHighest,
    most: 40,
    // The class may choose what it likes, so it is tried on more than the others.
    experiments: 400,
  },
  { what: 'one nearly as good, as advised', truth: rig([100, 99, 98, 40]), policy: advised, most: 32 },
  {
    what: 'three tie, with outliers, as advised',
    truth: rig([80, 80, 80, 20], { kind: 'share', share: 0.1 }, 0.04),
    policy: advised,
    most: 32,
  },
];

describe('chooseBest, looked at after every trial', () => {
  it.each(CASES)('rules out a true best in fewer than 5 of 100: $what', ({ truth, policy, most, experiments = EXPERIMENTS }) => {
    let wrong = 0;
    for (let seed = 1; seed <= experiments; seed++) {
      const looks = playExperiment(truth, { seed, policy, most, goOn: true });
      if (looks.at(-1)!.lost) wrong++;
    }
    // Were the share 5 %, so few would be seen in fewer than 5 of 100 such tests.
    expect(chanceOfSoFew(wrong, experiments, ERROR_SHARE)).toBeLessThan(0.05);
  });

  // The blade angles of a model rig, and the same as near each other as two thirds.
  it.each([
    { what: 'powers as a rig gives them', truth: rig([37, 11, 4, 1.5, 0]), least: 0.9 },
    { what: 'the next one at 65 %', truth: rig([100, 65, 55, 40, 30]), least: 0.9 },
    { what: 'the next one at 85 %', truth: rig([100, 85, 70, 55, 40]), least: 0.3 },
  ])('names the best after three rounds in $least or more: $what', ({ truth, least }) => {
    let named = 0;
    for (let seed = 1; seed <= 100; seed++) {
      const looks = playExperiment(truth, { seed, policy: equalRounds, most: 15, goOn: true });
      if (looks.at(-1)!.best === 0) named++;
    }
    // Were it less, so many would be seen in fewer than 5 of 100 such tests.
    expect(1 - chanceOfSoFew(named - 1, 100, least)).toBeLessThan(0.05);
  });
});

describe('adviseNext', () => {
  it('names the best with a fifth fewer trials than whole rounds, where rivals differ', () => {
    const truth = rig([100, 90, 70, 55, 40]);
    const mean = (policy: Policy): number => {
      let trials = 0;
      for (let seed = 1; seed <= 60; seed++) {
        const last = playExperiment(truth, { seed, policy, most: 80, goOn: false }).at(-1)!;
        expect(last.best === null || last.best === 0).toBe(true);
        trials += last.trials;
      }
      return trials / 60;
    };
    expect(mean(advised)).toBeLessThan(0.8 * mean(equalRounds));
  });
});
