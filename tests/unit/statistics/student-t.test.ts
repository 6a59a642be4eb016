import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { studentTQuantile } from '#core/statistics/student-t.ts';

describe('studentTQuantile', () => {
  // JCGM 100:2008 (GUM), Table G.2, column p = 95 %.
  const GUM_G2: readonly [number, number, number][] = [
    [1, 12.71, 2], [2, 4.3, 2], [3, 3.18, 2], [4, 2.78, 2], [5, 2.57, 2], [6, 2.45, 2], [7, 2.36, 2],
    [8, 2.31, 2], [9, 2.26, 2], [10, 2.23, 2], [11, 2.2, 2], [12, 2.18, 2], [13, 2.16, 2],
    [14, 2.14, 2], [15, 2.13, 2], [16, 2.12, 2], [17, 2.11, 2], [18, 2.1, 2], [19, 2.09, 2],
    [20, 2.09, 2], [25, 2.06, 2], [30, 2.04, 2], [35, 2.03, 2], [40, 2.02, 2], [45, 2.01, 2],
    [50, 2.01, 2], [100, 1.984, 3], [Infinity, 1.96, 3],
  ];
  it.each(GUM_G2)('gives the coverage factor of the GUM for %d degrees of freedom', (nu, k, digits) => {
    expect(studentTQuantile(0.975, nu).toFixed(digits)).toBe(k.toFixed(digits));
  });

  // NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.2, upper critical values.
  const NIST: readonly [number, number, number][] = [
    [1, 0.9, 3.078], [1, 0.999, 318.309], [2, 0.95, 2.92], [5, 0.99, 3.365], [7, 0.995, 3.499],
    [10, 0.999, 4.144], [30, 0.95, 1.697], [60, 0.99, 2.39], [100, 0.999, 3.174],
  ];
  it.each(NIST)('agrees with the handbook table: nu %d, p %d', (nu, p, t) => {
    expect(Math.abs(studentTQuantile(p, nu) - t)).toBeLessThan(0.00051);
  });

  // Closed forms (Shaw, J. Comput. Finance 9(4), 2006): nu = 1, 2 and 4.
  it('keeps 1e-9 against the closed forms', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 1 - 1e-6, noNaN: true }), (p) => {
        const a = 4 * p * (1 - p);
        const root = 2 * Math.sqrt(Math.cos(Math.acos(Math.sqrt(a)) / 3) / Math.sqrt(a) - 1);
        const exact = [
          [1, Math.tan(Math.PI * (p - 0.5))],
          [2, (2 * p - 1) * Math.sqrt(2 / a)],
          [4, Math.sign(p - 0.5) * root],
        ] as const;
        for (const [nu, t] of exact) {
          // Near one half a root of nearly nothing costs the closed form its own digits.
          expect(Math.abs(studentTQuantile(p, nu) - t)).toBeLessThan(1e-9 * Math.max(1, Math.abs(t)) + 3e-8 * Number(Math.abs(p - 0.5) < 1e-4));
        }
      }),
    );
  });

  it('is the normal quantile for endless degrees of freedom', () => {
    // Normal quantiles: NIST/SEMATECH e-Handbook 1.3.6.7.1; digits of 1.959963984540054 from memory.
    expect(Math.abs(studentTQuantile(0.975, Infinity) - 1.959963984540054)).toBeLessThan(1e-9);
    expect(Math.abs(studentTQuantile(0.995, 1e12) - 2.5758293035489)).toBeLessThan(1e-9);
  });

  it('joins its two methods without a step', () => {
    const below = studentTQuantile(0.975, 1e6);
    const above = studentTQuantile(0.975, 1e6 + 1);
    expect(Math.abs(below - above)).toBeLessThan(1e-11);
  });

  it('falls as degrees of freedom grow, also between whole numbers', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.5, max: 1e5, noNaN: true }), (nu) => {
        expect(studentTQuantile(0.975, nu * 1.01)).toBeLessThan(studentTQuantile(0.975, nu));
      }),
    );
  });

  it.each([0, -1, NaN])('refuses %d degrees of freedom', (nu) => {
    expect(() => studentTQuantile(0.975, nu)).toThrow(RangeError);
  });
  it.each([0, 1, -0.1, NaN])('refuses the probability %d', (p) => {
    expect(() => studentTQuantile(p, 5)).toThrow(RangeError);
  });
});
