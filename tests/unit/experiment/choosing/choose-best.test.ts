import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chooseBest } from '#core/experiment/choosing/choose-best.ts';
import type { LevelKey, LevelTrial } from '#core/experiment/choosing/level-trial.ts';

/** Rounds of every level: values by level, one a round. */
function rounds(values: readonly (readonly [LevelKey, readonly number[]])[]): LevelTrial[] {
  const count = Math.max(...values.map(([, series]) => series.length));
  return Array.from({ length: count }, (_, block) =>
    values.flatMap(([level, series]) => {
      const value = series[block];
      return value === undefined ? [] : [{ level, value, block }];
    }),
  ).flat();
}

const CLEAR = rounds([
  [15, [36.1, 38.2, 37.3]],
  [30, [11.2, 10.4, 11.6]],
  [45, [4.1, 3.8, 4.0]],
  [90, [0, 0, 0]],
]);

describe('chooseBest', () => {
  it('names the best of levels that lie far apart', () => {
    const { best, leader, tiedWith, pairs } = chooseBest(CLEAR);
    expect({ best, leader, tiedWith }).toEqual({ best: 15, leader: 15, tiedWith: [] });
    expect(pairs.every(({ toldApart }) => toldApart)).toBe(true);
  });

  it('concludes nothing from one trial a level, however far they are', () => {
    const { best, tiedWith, scatter, pairs } = chooseBest(CLEAR.slice(0, 4));
    expect({ best, tiedWith, scatter }).toEqual({ best: null, tiedWith: [30, 45, 90], scatter: null });
    expect(pairs.some(({ toldApart }) => toldApart)).toBe(false);
  });

  it('does not break a tie', () => {
    const { best, leader, tiedWith } = chooseBest(
      rounds([
        ['red', [10, 11, 10.4]],
        ['blue', [10.3, 10.7, 10.5]],
        ['flat', [2, 2.1, 2.2]],
      ]),
    );
    expect(best).toBeNull();
    expect([leader, ...tiedWith].sort()).toEqual(['blue', 'red']);
  });

  it('does not take readings that were rounded alike for proof', () => {
    const same = chooseBest(rounds([[1, [5, 5]], [2, [5, 5]]]));
    expect({ best: same.best, tiedWith: same.tiedWith }).toEqual({ best: null, tiedWith: [2] });
  });

  it('takes the drift from round to round out of the scatter', () => {
    const steady = rounds([[1, [20, 20.4, 19.8]], [2, [16, 15.8, 16.2]]]);
    const fading = steady.map((trial) => ({ ...trial, value: trial.value / (1 + Number(trial.block)) }));
    expect(chooseBest(fading).scatter!.deviation).toBeCloseTo(chooseBest(steady).scatter!.deviation, 12);
  });

  it('believes no scatter smaller than the plateaus tell', () => {
    const vague = CLEAR.map((trial) => ({ ...trial, standardUncertainty: trial.value }));
    expect(chooseBest(vague).best).toBeNull();
  });

  it('keeps levels at which nothing turned outside', () => {
    const dead = chooseBest(CLEAR).levels.find(({ level }) => level === 90);
    expect(dead).toMatchObject({ estimate: null, canBeBest: false, zeros: 'always', overOthers: null });
  });

  it('never names a level that sometimes did not turn', () => {
    const stubborn = chooseBest([...CLEAR, { level: 15, value: 0, block: 3 }]);
    expect(stubborn).toMatchObject({ best: null, leader: 15, tiedWith: [] });
  });

  it('compares responses that can be negative as they are', () => {
    const { best, scale, pairs } = chooseBest(rounds([[1, [-5, -5.2, -4.9]], [2, [3, 3.3, 3.1]]]));
    expect({ best, scale }).toEqual({ best: 2, scale: 'difference' });
    expect(pairs[0]!.difference).toBeCloseTo(-8.1667, 4);
  });

  it('bears hundreds of trials that agree to the last digit', () => {
    const same = (value: number): number[] => Array<number>(400).fill(value);
    const { best, pairs } = chooseBest(rounds([[1, same(5)], [2, same(6)], [3, same(1)]]));
    expect(best).toBe(2);
    const [first] = pairs;
    expect(first!.low).toBeLessThanOrEqual(Math.log(5 / 6));
    expect(first!.high).toBeGreaterThanOrEqual(Math.log(5 / 6));
    expect(first!.high! - first!.low!).toBeLessThan(1e-4);
  });

  it('knows nothing of no trials, and of a single level', () => {
    expect(chooseBest([])).toMatchObject({ best: null, leader: null, tiedWith: [], levels: [] });
    const alone = chooseBest(rounds([[1, [5, 6, 7]]]));
    expect(alone).toMatchObject({ best: null, leader: 1, tiedWith: [] });
  });

  it('finds the same in any unit, and whatever the levels are called', () => {
    const arbitrary = fc.array(
      fc.record({
        level: fc.integer({ min: 1, max: 5 }),
        value: fc.double({ min: 0.5, max: 50, noNaN: true }),
        block: fc.integer({ min: 1, max: 4 }),
      }),
      { minLength: 2, maxLength: 24 },
    );
    fc.assert(
      fc.property(arbitrary, fc.double({ min: 0.01, max: 100, noNaN: true }), (trials, unit) => {
        const found = chooseBest(trials);
        const scaled = chooseBest(trials.map((trial) => ({ ...trial, value: trial.value * unit })));
        const renamed = chooseBest(trials.map((trial) => ({ ...trial, level: `level ${trial.level}` })));
        expect([scaled.best, scaled.tiedWith]).toEqual([found.best, found.tiedWith]);
        expect(renamed.tiedWith).toEqual(found.tiedWith.map((level) => `level ${level}`));
        // A single best has nobody beside it, and its limits say so.
        if (found.best !== null) {
          expect(found.tiedWith).toEqual([]);
          const own = found.levels.find(({ level }) => level === found.best);
          expect(own!.overOthers!.low).toBeGreaterThanOrEqual(0);
        }
      }),
      { numRuns: 300 },
    );
  });
});
