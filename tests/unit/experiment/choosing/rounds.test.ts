import { describe, expect, it } from 'vitest';
import { chooseBest } from '#core/experiment/choosing/choose-best.ts';
import type { LevelTrial } from '#core/experiment/choosing/level-trial.ts';
import { outByRounds } from '#core/experiment/choosing/rounds.ts';

/** One row a round, a value for each of the levels. */
function rounds(levels: readonly number[], rows: readonly (readonly number[])[]): LevelTrial[] {
  return rows.flatMap((row, block) => row.map((value, i) => ({ level: levels[i]!, value, block })));
}

const LEVELS = [10, 20, 30, 40];
// Made up: 20 lies 17 % above the next, setting anew scatters by 4 %.
const CLOSE = rounds(LEVELS, [
  [84, 103, 66, 51],
  [88, 99, 69, 48],
  [83, 104, 71, 50],
]);

describe('rounds', () => {
  it('name the best after the third, when the evidence alone does not yet', () => {
    expect(outByRounds(CLOSE)).toEqual(new Set([10, 30, 40]));
    expect(chooseBest(CLOSE).best).toBe(20);
    const withoutBlocks = CLOSE.map((trial) => ({ ...trial, block: null }));
    expect(outByRounds(withoutBlocks).size).toBe(0);
  });

  it('wait for all that are still in the race, and for no others', () => {
    const soFar = CLOSE.slice(0, -2);
    expect(outByRounds(soFar)).toEqual(new Set([40]));
    expect(chooseBest(soFar).best).toBeNull();
    expect(chooseBest(CLOSE.slice(0, -1)).best).toBe(20);
  });

  it('are two where a set holds all that are in the race twice', () => {
    const two = rounds(LEVELS, [[84, 103, 30, 20], [88, 99, 31, 19]]);
    const set = [10, 20, 20, 10].map((level, i) => ({ level, value: [85, 93, 94, 84][i]!, block: 'set' }));
    expect(outByRounds(two)).toEqual(new Set([30, 40]));
    const looks = [2, 4].map((count) => outByRounds([...two, ...set.slice(0, count)]).has(10));
    expect(looks).toEqual([false, true]);
  });

  it('still hold when levels are run once more in sets of their own', () => {
    const more = [10, 20, 20, 10].map((level, i) => ({ level, value: [84, 101, 102, 85][i]!, block: 'set' }));
    expect(outByRounds([...CLOSE, ...more])).toEqual(new Set([10, 30, 40]));
  });

  it('no longer count once later trials turn the order', () => {
    const turned = [1, 2, 3, 4].flatMap((set) => [
      { level: 10, value: 130, block: `set ${set}` },
      { level: 20, value: 90, block: `set ${set}` },
    ]);
    const { leader, best, tiedWith } = chooseBest([...CLOSE, ...turned]);
    expect({ leader, best, tiedWith: tiedWith.includes(20) }).toEqual({ leader: 10, best: null, tiedWith: true });
  });

  it('leave a level out that did not turn, and count the first of two in a round', () => {
    const still = CLOSE.map((trial) => (trial.level === 40 ? { ...trial, value: 0 } : trial));
    expect(outByRounds(still)).toEqual(new Set([10, 30]));
    const again = CLOSE.flatMap((trial) => [trial, { ...trial, value: trial.value * 1.5 }]);
    expect(outByRounds(again)).toEqual(outByRounds(CLOSE));
  });

  it('save every level that stands no lower than one that is saved', () => {
    // The lowest two lie apart from the highest by less than their own scatter.
    const vague = rounds(LEVELS, [[80, 100, 30, 99], [82, 95, 95, 60], [81, 97, 60, 70]]);
    expect(outByRounds(vague).size).toBe(0);
  });

  it('begin anew when a level joins', () => {
    const joined = [...CLOSE, { level: 50, value: 20, block: 3 }];
    expect(outByRounds(joined).size).toBe(0);
  });

  it('spend no look twice when a level joins', () => {
    // 15 %: told from 20 by a third look (1.8 %), not by a fourth or fifth (0.4, 0.2 %).
    const anew = rounds([10, 20, 30], [[85, 100, 50], [88, 99, 52], [84, 101, 51]]);
    expect(outByRounds(anew)).toEqual(new Set([10, 30]));
    const before = rounds([10, 20], [[100, 101], [100, 99], [101, 100]]);
    const later = anew.map((trial) => ({ ...trial, block: `later ${trial.block}` }));
    expect(outByRounds([...before, ...later])).toEqual(new Set([30]));
  });
});
