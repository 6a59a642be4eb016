/**
 * What 95 % limits promise, by random draws (seeds are fixed): the share of experiments in which all
 * of them hold the truth. 1000 experiments know a share of 0.95 to ± 0.014 (two standard errors).
 */
import { describe, expect, it } from 'vitest';
import { optimumOf } from '#core/experiment/comparison/optimum.ts';
import { wordsFor } from '#core/experiment/comparison/words.ts';
import { gamesHowell } from '#core/statistics/games-howell.ts';
import { momentsOf, type Pair } from '#core/statistics/groups.ts';
import { tukey } from '#core/statistics/tukey.ts';
import { createRandom, normal } from '#core/virtual-rig/random.ts';

const EXPERIMENTS = 1000;

function shareOf(seed: number, holds: (draw: () => number) => boolean): number {
  const random = createRandom(seed);
  let held = 0;
  for (let i = 0; i < EXPERIMENTS; i++) held += Number(holds(() => normal(random)));
  return held / EXPERIMENTS;
}

const MEANS = [3, 5, 5, 6];
const holdsAll = (pairs: readonly Pair[]): boolean =>
  pairs.every(({ a, b, low, high }) => low <= MEANS[a]! - MEANS[b]! && MEANS[a]! - MEANS[b]! <= high);

function groupsOf(draw: () => number, counts: readonly number[], deviations: readonly number[]) {
  return MEANS.map((mean, i) =>
    momentsOf(Array.from({ length: counts[i]! }, () => mean + deviations[i]! * draw())),
  );
}

describe('coverage', () => {
  it('of Tukey’s limits with a common scatter and equal counts is 95 %', () => {
    const share = shareOf(1, (draw) => holdsAll(tukey(groupsOf(draw, [4, 4, 4, 4], [1, 1, 1, 1]))!));
    expect(Math.abs(share - 0.95)).toBeLessThan(0.02);
  });

  it('of Games and Howell’s with scatters of their own is near 95 %', () => {
    const share = shareOf(2, (draw) => holdsAll(gamesHowell(groupsOf(draw, [5, 8, 6, 10], [3, 1, 0.5, 2]))!));
    expect(Math.abs(share - 0.95)).toBeLessThan(0.03);
  });

  it('of Tukey’s is not where scatters differ much: why the other is used once it can be', () => {
    const share = shareOf(2, (draw) => holdsAll(tukey(groupsOf(draw, [5, 8, 6, 10], [3, 1, 0.5, 2]))!));
    expect(share).toBeLessThan(0.93);
  });

  it('of the limits of the highest point is 95 % where it has limits', () => {
    const truth = 27;
    const levels = [10, 20, 30, 40, 50];
    let bounded = 0;
    const share = shareOf(3, (draw) => {
      const tried = levels.map((x) => {
        const responses = [0, 1, 2].map(() => 2 - ((x - truth) / 20) ** 2 + 0.2 * draw());
        return { x, responses, moments: momentsOf(responses) };
      });
      const pairs = tukey(tried.map(({ moments }) => moments));
      const optimum = optimumOf(tried, pairs, wordsFor({ factor: 'x', response: 'y' }));
      // Where the lack of fit is a false alarm, the levels around the highest one count.
      if (optimum.low === null || optimum.high === null) return true;
      bounded += 1;
      return optimum.low <= truth && truth <= optimum.high;
    });
    expect(bounded).toBeGreaterThan(0.9 * EXPERIMENTS);
    expect(share).toBeGreaterThan(0.93);
    expect(share).toBeLessThan(0.975);
  });
});
