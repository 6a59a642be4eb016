import { describe, expect, it } from 'vitest';
import { fitBlocks, type BlockReading } from '#core/experiment/choosing/block-model.ts';

// D. C. Montgomery, Design and Analysis of Experiments: balanced incomplete blocks, reaction time by
// catalyst (rows) and batch (columns). Data and results from memory: adjusted treatments 22.75,
// error 3.25 on 5, effects −9/8, −7/8, −4/8, 20/8.
const CATALYSTS = [
  [73, 74, null, 71],
  [null, 75, 67, 72],
  [73, 75, 68, null],
  [75, null, 72, 75],
];
const READINGS: BlockReading[] = CATALYSTS.flatMap((row, level) =>
  row.flatMap((y, block) => (y === null ? [] : [{ level, block, y }])),
);

describe('fitBlocks', () => {
  it('has the effects and the error of a textbook incomplete block design', () => {
    const fit = fitBlocks(READINGS, 4);
    expect(fit.effects.map((effect) => Number(effect.toFixed(9)))).toEqual([-1.125, -0.875, -0.5, 2.5]);
    expect(fit.squares).toBeCloseTo(3.25, 9);
    expect(fit.degreesOfFreedom).toBe(5);
    // 2k/(λt) in that book's letters, with blocks of k = 3, λ = 2 and t = 4.
    expect(fit.contrastVariance(0, 3)).toBeCloseTo((2 * 3) / (2 * 4), 12);
  });

  it('gives the levels freedom that sums to that of the error', () => {
    const { own, degreesOfFreedom } = fitBlocks(READINGS, 4);
    expect(own.reduce((sum, { freedom }) => sum + freedom, 0)).toBeCloseTo(degreesOfFreedom, 12);
  });

  // NIST/SEMATECH e-Handbook 7.4.3: data from memory, values from R 4.2.2.
  it('has the one-way error where all is one block', () => {
    const groups = [
      [6.9, 5.4, 5.8, 4.6, 4.0],
      [8.3, 6.8, 7.8, 9.2, 6.5],
      [8.0, 10.5, 8.1, 6.9, 9.3],
      [5.8, 3.8, 6.1, 5.6, 6.2],
    ];
    const fit = fitBlocks(
      groups.flatMap((ys, level) => ys.map((y) => ({ level, block: 0, y }))),
      4,
    );
    expect(fit.squares).toBeCloseTo(21.292, 3);
    expect(fit.degreesOfFreedom).toBe(16);
  });

  it('links only levels that blocks connect', () => {
    const fit = fitBlocks(
      [
        { level: 0, block: 0, y: 1 },
        { level: 1, block: 0, y: 2 },
        { level: 2, block: 1, y: 9 },
      ],
      3,
    );
    expect(fit.linked(0, 1)).toBe(true);
    expect(fit.linked(1, 2)).toBe(false);
    expect(fit.degreesOfFreedom).toBe(0);
  });
});
