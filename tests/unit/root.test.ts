import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rootBetween } from '#core/root.ts';

describe('rootBetween', () => {
  it('finds roots that are known', () => {
    expect(rootBetween(0, 2, (x) => x * x - 2)).toBeCloseTo(Math.SQRT2, 11);
    expect(rootBetween(0, 4, (x) => Math.cos(x))).toBeCloseTo(Math.PI / 2, 11);
    expect(rootBetween(0, 20, (x) => x ** 9 - 1)).toBeCloseTo(1, 10);
    expect(rootBetween(0, 1, (x) => x)).toBe(0);
  });

  it('finds the root of any power', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.3, max: 6, noNaN: true }),
        fc.double({ min: 0.05, max: 9.5, noNaN: true }),
        (power, root) => {
          expect(rootBetween(0, 10, (x) => x ** power - root ** power)).toBeCloseTo(root, 8);
        },
      ),
    );
  });

  it('gives the nearer end where there is no root', () => {
    expect(rootBetween(1, 3, (x) => x)).toBe(1);
    expect(rootBetween(1, 3, (x) => -1 / x)).toBe(3);
  });
});
