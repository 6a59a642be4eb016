/** The limits of chooseBest hold for all pairs at every look, on rigs whose truth is known. */
import { describe, expect, it } from 'vitest';
import { chooseBest, type Choice } from '#core/experiment/choosing/choose-best.ts';
import type { LevelTrial } from '#core/experiment/choosing/level-trial.ts';
import { ERROR_SHARE } from '#core/experiment/choosing/error-shares.ts';
import { createRandom } from '#core/virtual-rig/random.ts';
import { equalRounds } from '../../bench/choosing/experiment.ts';
import { makeTrial, nextDrift, type RigTruth } from '../../bench/choosing/rig.ts';
import { chanceOfSoFew } from './binomial.ts';

const EXPERIMENTS = 150;
const ROUNDS = 8;
const TRUTH: RigTruth = {
  powers: [100, 95, 70, 20],
  scatter: { kind: 'share', share: 0.05 },
  outliers: 0,
  drift: 0.03,
};

/** Whether all limits hold what is true. */
function holds({ pairs, levels }: Choice): boolean {
  const truth = (level: number | string): number => Math.log(TRUTH.powers[Number(level)]!);
  const isWithin = (value: number, low: number | null, high: number | null): boolean =>
    (low ?? -Infinity) <= value && value <= (high ?? Infinity);
  return (
    pairs.every(({ a, b, low, high }) => isWithin(truth(a) - truth(b), low, high)) &&
    levels.every(({ level, overOthers }) => {
      const others = TRUTH.powers.filter((_, other) => other !== level).map(Math.log);
      const over = truth(level) - Math.max(...others);
      return overOthers === null || isWithin(over, overOthers.low, overOthers.high);
    })
  );
}

describe('the limits of chooseBest', () => {
  it('all hold at every round in more than 95 of 100 experiments, and become narrow', () => {
    let wrong = 0;
    const widths: number[] = [];
    for (let seed = 1; seed <= EXPERIMENTS; seed++) {
      const random = createRandom(seed);
      const trials: LevelTrial[] = [];
      let isWrong = false;
      for (let block = 1; block <= ROUNDS; block++) {
        const factor = nextDrift(random, TRUTH);
        for (const level of equalRounds(random, trials, [0, 1, 2, 3])) {
          trials.push(makeTrial(random, { truth: TRUTH, level, block, factor }));
        }
        const choice = chooseBest(trials);
        isWrong ||= !holds(choice);
        const [first] = choice.pairs;
        if (block === ROUNDS) widths.push((first!.high ?? Infinity) - (first!.low ?? -Infinity));
      }
      if (isWrong) wrong++;
    }
    expect(chanceOfSoFew(wrong, EXPERIMENTS, ERROR_SHARE)).toBeLessThan(0.05);
    // A t interval at the last look alone has a width of 2·2.08·5 %·√(2/8) = 0.10.
    expect(Math.max(...widths)).toBeLessThan(4 * 0.1);
  });
});
