import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { optimalShares, shareOut } from '#core/experiment/choosing/allocation.ts';

describe('optimalShares', () => {
  // C.-H. Chen, L. H. Lee, Stochastic Simulation Optimization (2010), p. 49: means 1 to 5 (the least
  // is best), variances 1, 1, 9, 9, 4, 50 trials: 11, 9, 19, 9, 2. As quoted in the documentation and
  // the tests of public implementations; the book itself not opened.
  it('shares out as the textbook does', () => {
    const variances = [1, 1, 9, 9, 4];
    const shares = optimalShares(variances.map((variance, gap) => ({ gap, variance })));
    expect(shareOut(shares, [0, 0, 0, 0, 0], 50)).toEqual([11, 9, 19, 9, 2]);
  });

  // Documentation of a public implementation: means and variances 1 to 4 (the greatest is best), 5
  // trials each so far, 10 more: 0, 0, 4, 6.
  it('gives none to levels that have more than their share', () => {
    const shares = optimalShares([1, 2, 3, 4].map((variance, i) => ({ gap: 3 - i, variance })));
    expect(shareOut(shares, [5, 5, 5, 5], 10)).toEqual([0, 0, 4, 6]);
  });

  // Chen, Lin, Yücesan and Chick 2000: with two designs the shares are as the standard deviations.
  it('shares between two as their scatter', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 10, noNaN: true }),
        fc.double({ min: 0.01, max: 10, noNaN: true }),
        fc.double({ min: 0.01, max: 10, noNaN: true }),
        (first, second, gap) => {
          const [a = 0, b = 0] = optimalShares([
            { gap: 0, variance: first ** 2 },
            { gap, variance: second ** 2 },
          ]);
          expect(a / b / (first / second)).toBeCloseTo(1, 9);
        },
      ),
    );
  });
});
