/**
 * Distributions against values of mpmath at 40 digits and of SciPy (fixtures/make-distributions.py
 * says how), against printed tables, and against each other.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chiSquaredUpperQuantile, chiSquaredUpperTail } from '#core/statistics/chi-squared.ts';
import { fUpperQuantile, fUpperTail } from '#core/statistics/f.ts';
import { logGamma } from '#core/statistics/log-gamma.ts';
import { noncentralFUpperTail } from '#core/statistics/noncentral-f.ts';
import { noncentralTUpperTail } from '#core/statistics/noncentral-t.ts';
import { normalDensity, normalQuantile, normalUpperTail } from '#core/statistics/normal.ts';
import { studentTQuantile, studentTUpperTail } from '#core/statistics/student-t.ts';
import { studentizedRange } from '#core/statistics/studentized-range.ts';

/** Arguments, as many as the law has, then the tail. */
type Row = readonly number[];
const FIXTURE = JSON.parse(
  readFileSync(join(import.meta.dirname, 'fixtures/distributions.json'), 'utf8'),
) as Record<string, readonly Row[]>;

interface Law {
  readonly name: string;
  readonly of: (row: readonly [number, number, number, number]) => number;
  /** Largest relative difference allowed. */
  readonly within: number;
}

// prettier-ignore
const LAWS: readonly Law[] = [
  { name: 'normal', of: ([z]) => normalUpperTail(z), within: 1e-14 },
  { name: 't', of: ([t, nu]) => studentTUpperTail(t, nu), within: 1e-12 },
  { name: 'f', of: ([f, df1, df2]) => fUpperTail(f, { df1, df2 }), within: 1e-12 },
  { name: 'chiSquared', of: ([x, nu]) => chiSquaredUpperTail(x, nu), within: 1e-13 },
  { name: 'logGamma', of: ([x]) => logGamma(x), within: 1e-14 },
  // SciPy's own integration has about eleven digits.
  { name: 'studentizedRange', of: ([q, k, nu]) => studentizedRange(k).upperTail(q, nu), within: 1e-11 },
  { name: 'noncentralT', of: ([t, nu, delta]) => noncentralTUpperTail(t, nu, delta), within: 1e-12 },
  { name: 'noncentralF', of: ([f, df1, df2, lambda]) => noncentralFUpperTail(f, { df1, df2 }, lambda), within: 1e-12 },
];

describe('tails', () => {
  it('cover every law of the fixture', () => {
    expect(LAWS.map(({ name }) => name).sort()).toEqual(Object.keys(FIXTURE).sort());
  });

  it.each(LAWS)('of $name have the digits of mpmath or SciPy', ({ name, of, within }) => {
    const rows = FIXTURE[name]!;
    // Below the smallest double with all its digits there is nothing to compare.
    const far = rows.filter((row) => {
      const wanted = row.at(-1)!;
      const [a = NaN, b = NaN, c = NaN, d = NaN] = row;
      const gap = Math.abs(of([a, b, c, d]) - wanted);
      return wanted > 1e-290 || wanted < 0 ? !(gap <= within * Math.abs(wanted)) : gap > 1e-290;
    });
    expect(far).toEqual([]);
    expect(rows.length).toBeGreaterThan(9);
  });

  it.each([
    ['t, 3 degrees of freedom', (x: number) => studentTUpperTail(x, 3), 40],
    ['F, 4 and 7', (x: number) => fUpperTail(x, { df1: 4, df2: 7 }), 60],
    ['normal', normalUpperTail, 7],
  ] as const)('fall as their density says, far out: %s', (_, tail, x) => {
    // Simpson's rule over densities written out here, with Γ at whole and half numbers by hand:
    // t₃: 6√3/(π(3 + x²)²); F₄,₇: Γ(5.5)/(Γ(2)Γ(3.5))(4/7)²x(1 + 4x/7)^−5.5.
    const density = {
      40: (u: number) => (6 * Math.sqrt(3)) / (Math.PI * (3 + u * u) ** 2),
      60: (u: number) => 4.5 * 3.5 * (4 / 7) ** 2 * u * (1 + (4 * u) / 7) ** -5.5,
      7: normalDensity,
    }[x];
    const [steps, width] = [2000, x / 10];
    const h = width / steps;
    let sum = density(x) + density(x + width);
    for (let i = 1; i < steps; i++) sum += density(x + i * h) * (i % 2 === 1 ? 4 : 2);
    const difference = tail(x) - tail(x + width);
    expect(Math.abs(difference / ((sum * h) / 3) - 1)).toBeLessThan(1e-10);
  });
});

describe('quantiles', () => {
  it('are where the tail is as large as wanted', () => {
    const freedom = fc.double({ min: 0.5, max: 1e5, noNaN: true });
    const chance = fc.double({ min: 1e-12, max: 0.99, noNaN: true });
    const share = (found: number, wanted: number): number => Math.abs(found / wanted - 1);
    fc.assert(
      fc.property(freedom, freedom, chance, (df1, df2, tail) => {
        const f = fUpperQuantile(tail, { df1, df2 });
        expect(share(fUpperTail(f, { df1, df2 }), tail)).toBeLessThan(1e-9);
        expect(share(chiSquaredUpperTail(chiSquaredUpperQuantile(tail, df1), df1), tail)).toBeLessThan(1e-9);
        expect(share(studentTUpperTail(-studentTQuantile(tail, df1), df1), tail)).toBeLessThan(1e-9);
        expect(share(normalUpperTail(-normalQuantile(tail)), tail)).toBeLessThan(1e-9);
      }),
      { numRuns: 300 },
    );
  });

  it('of the studentized range too', () => {
    const groups = fc.integer({ min: 2, max: 20 });
    const freedom = fc.double({ min: 1, max: 1e4, noNaN: true });
    const chance = fc.double({ min: 1e-9, max: 0.95, noNaN: true });
    fc.assert(
      fc.property(groups, freedom, chance, (k, nu, tail) => {
        const { upperTail, upperQuantile } = studentizedRange(k);
        expect(Math.abs(upperTail(upperQuantile(tail, nu), nu) / tail - 1)).toBeLessThan(1e-9);
      }),
      { numRuns: 100 },
    );
  });

  // Table of the studentized range, q(.05; k, ν) and q(.01; k, ν), by SciPy 1.17.1.
  it.each([
    [0.05, 5, [3.63535, 4.60173, 5.21832, 5.67312]],
    [0.05, 10, [3.15106, 3.87678, 4.32658, 4.65429]],
    [0.01, 10, [4.48203, 5.27016, 5.76859, 6.13609]],
  ] as const)('are those of the table of the studentized range: tail %d, ν %d', (tail, nu, row) => {
    const found = row.map((_, i) => studentizedRange(i + 2).upperQuantile(tail, nu).toFixed(5));
    expect(found).toEqual(row.map((value) => value.toFixed(5)));
  });

  // C. W. Dunnett, J. Am. Stat. Assoc. 50 (1955) 1096, table 1a: one-sided, 1 to 4 treatments
  // against a control, 5 % (from memory).
  it.each([
    [8, ['1.86', '2.22', '2.42', '2.55']],
    [10, ['1.81', '2.15', '2.34', '2.47']],
  ] as const)('of one chosen below the greatest are those of many against a control: ν %d', (nu, row) => {
    const found = row.map((_, i) => studentizedRange(i + 2, 1).upperQuantile(0.05, nu) / Math.SQRT2);
    expect(found.map((t) => t.toFixed(2))).toEqual(row);
  });

  it('of some chosen grow with how many, up to the range itself', () => {
    const some = [1, 2, 3, 4, 5].map((m) => studentizedRange(5, m).upperTail(4, 8));
    expect(some).toEqual([...some].sort((a, b) => a - b));
    expect(some[4]).toBe(studentizedRange(5).upperTail(4, 8));
    // By 2 000 000 draws of five normal values and a chi-squared one (Python's random, seed 7).
    expect(studentizedRange(5, 2).upperTail(4, 8)).toBeCloseTo(0.06017, 3);
  });

  it('of the range of two are √2 times those of Student', () => {
    for (const nu of [1, 3, 12.3, 500, Infinity]) {
      const q = studentizedRange(2).upperQuantile(0.05, nu);
      expect(q / (Math.SQRT2 * -studentTQuantile(0.025, nu))).toBeCloseTo(1, 12);
    }
  });

  // NIST/SEMATECH e-Handbook, 1.3.6.7.3 and 1.3.6.7.4 (from memory).
  it.each([
    [4.965, 1, 10], [3.098, 3, 20], [2.711, 5, 20],
  ])('of F are those of the handbook table: %d', (f, df1, df2) => {
    expect(fUpperQuantile(0.05, { df1, df2 })).toBeCloseTo(f, 3);
  });
});

describe('arguments outside the law', () => {
  it('are refused', () => {
    expect(() => normalQuantile(1)).toThrow(RangeError);
    expect(() => fUpperTail(1, { df1: 0, df2: 3 })).toThrow(RangeError);
    expect(() => chiSquaredUpperTail(1, NaN)).toThrow(RangeError);
    expect(() => studentizedRange(1)).toThrow(RangeError);
    expect(() => studentizedRange(3, 4)).toThrow(RangeError);
  });
});
