/** Readings that no rig gives: the answer still comes, and holds numbers only. */
import { expect, it } from 'vitest';
import { adviseNext } from '#core/experiment/choosing/advise-next.ts';
import { chooseBest } from '#core/experiment/choosing/choose-best.ts';
import type { LevelTrial } from '#core/experiment/choosing/level-trial.ts';
import { studentTUpperTail } from '#core/statistics/student-t.ts';

const trial = (level: number, value: number, standardUncertainty: number | null): LevelTrial => {
  return { level, value, block: null, standardUncertainty };
};

it.each([
  ['a share beyond the largest number', 4.762931076275555e-302, 46593.17519209652],
  ['a share whose square is beyond it', 1e-200, 1e10],
  ['an uncertainty of nothing', 1, 0],
])('%s', (_, value, u) => {
  const trials = [trial(1, 2, 693582366.6), trial(1, value, u), trial(2, 3, 5e-5), trial(2, 3.1, null)];
  const { pairs, best } = chooseBest(trials);
  expect(pairs.length).toBe(1);
  for (const { difference, low, high } of pairs) {
    expect([difference, low, high].filter((one) => Number.isNaN(one))).toEqual([]);
  }
  expect(best).toBeNull();
  expect(adviseNext({ trials, levels: [1, 2], left: [] }).kind).toBe('run');
});

it('what is no number has no tail, and takes no time', () => {
  expect(studentTUpperTail(NaN, 2)).toBeNaN();
});
