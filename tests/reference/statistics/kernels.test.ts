/** Kernels of the comparison against certified and published values; each with its source. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { bartlett } from '#core/statistics/bartlett.ts';
import { blocked } from '#core/statistics/blocks.ts';
import { covarianceAnalysis } from '#core/statistics/covariance-analysis.ts';
import { drift } from '#core/statistics/drift.ts';
import { ratioLimits } from '#core/statistics/fieller.ts';
import { gamesHowell } from '#core/statistics/games-howell.ts';
import { momentsOf, type Pair } from '#core/statistics/groups.ts';
import { kruskalWallis } from '#core/statistics/kruskal-wallis.ts';
import { lackOfFit } from '#core/statistics/lack-of-fit.ts';
import { leastSquares } from '#core/statistics/least-squares.ts';
import { oneWay } from '#core/statistics/one-way.ts';
import { fitPolynomial } from '#core/statistics/polynomial.ts';
import { anovaPower, pairPower, trialsFor } from '#core/statistics/power.ts';
import { tukey } from '#core/statistics/tukey.ts';
import { twoFactor } from '#core/statistics/two-factor.ts';
import { welch } from '#core/statistics/welch.ts';

function fixture<T>(name: string): T {
  return JSON.parse(readFileSync(join(import.meta.dirname, 'fixtures', name), 'utf8')) as T;
}

function digitsOfAgreement(value: number, certified: number): number {
  return value === certified ? 15 : -Math.log10(Math.abs((value - certified) / certified));
}

// NIST/ITL Statistical Reference Datasets: data and certified values are in the fixture.
interface Certified {
  readonly anova: readonly {
    readonly name: string;
    readonly groups: readonly (readonly number[])[];
    readonly f: number;
    readonly betweenSquares: number;
    readonly withinSquares: number;
    readonly dfBetween: number;
    readonly dfWithin: number;
  }[];
  readonly regression: readonly {
    readonly name: string;
    readonly powers: readonly number[];
    readonly coefficients: readonly number[];
    readonly errors: readonly number[];
    readonly residualDeviation: number;
    readonly x: readonly number[];
    readonly y: readonly number[];
  }[];
}
const NIST = fixture<Certified>('nist-strd.json');
/** The values of SmLs04 and 07 begin with 1e6 and 1e12: a double has no more digits left for these. */
const ANOVA_DIGITS: Record<string, number> = { SiRstv: 12, AtmWtAg: 9, SmLs01: 13, SmLs04: 9, SmLs07: 3 };

describe.each(NIST.anova)('one-way analysis of variance: $name', (set) => {
  const origin = set.groups[0]![0]!;
  const found = oneWay(set.groups.map((group) => momentsOf(group, origin)))!;

  it('has the certified degrees of freedom', () => {
    expect([found.dfBetween, found.dfWithin]).toEqual([set.dfBetween, set.dfWithin]);
  });

  it.each(['f', 'betweenSquares', 'withinSquares'] as const)('has the certified %s', (of) => {
    expect(digitsOfAgreement(found[of], set[of])).toBeGreaterThan(ANOVA_DIGITS[set.name]!);
  });
});

describe.each(NIST.regression)('least squares: $name', (set) => {
  const fit = leastSquares(set.powers.map((power) => set.x.map((x) => x ** power)), set.y);
  const variance = fit.residualSquares / fit.residualFreedom;

  it('has the certified coefficients', () => {
    const digits = set.coefficients.map((wanted, i) => digitsOfAgreement(fit.coefficients[i]!, wanted));
    expect(Math.min(...digits)).toBeGreaterThan(11);
  });

  it('has their certified standard deviations, and that of the residuals', () => {
    const digits = set.errors.map((wanted, i) => {
      const unit = set.powers.map((_, j) => Number(i === j));
      return digitsOfAgreement(Math.sqrt(variance * fit.covariance(unit, unit)), wanted);
    });
    expect(Math.min(...digits)).toBeGreaterThan(12);
    expect(digitsOfAgreement(Math.sqrt(variance), set.residualDeviation)).toBeGreaterThan(12);
  });
});

const near = (value: number, digits: number) => expect.closeTo(value, digits) as number;

function pair(pairs: readonly Pair[] | null, a: number, b: number): Pair {
  return pairs!.find((one) => one.a === a - 1 && one.b === b - 1)!;
}

describe('four groups of five', () => {
  // NIST/SEMATECH e-Handbook, 7.4.3 and 7.4.7.1 (data from memory); p, Welch, Games-Howell, Bartlett
  // and Kruskal-Wallis by R 4.2.2.
  const values = [
    [6.9, 5.4, 5.8, 4.6, 4.0],
    [8.3, 6.8, 7.8, 9.2, 6.5],
    [8.0, 10.5, 8.1, 6.9, 9.3],
    [5.8, 3.8, 6.1, 5.6, 6.2],
  ];
  const groups = values.map((group) => momentsOf(group));

  it('have the published analysis of variance', () => {
    expect(oneWay(groups)).toEqual({
      f: near(9.72384, 5), dfBetween: 3, dfWithin: 16, p: near(6.8445e-4, 8),
      betweenSquares: near(38.82, 9), withinSquares: near(21.292, 9),
    });
    expect(welch(groups)).toEqual({ f: near(8.07277, 5), df1: 3, df2: near(8.837426, 6), p: near(0.00667238, 8) });
    expect(bartlett(groups)).toEqual({ statistic: near(0.453051, 6), df: 3, p: near(0.92908, 5) });
    expect(kruskalWallis(values)).toEqual({ h: near(13.365813, 6), df: 3, p: near(0.0039087, 7) });
  });

  it.each([
    [2, 1, 0.29263, 4.46737, 0.022793],
    [3, 1, 1.13263, 5.30737, 0.0022108],
    [4, 1, -1.92737, 2.24737, 0.99612],
  ])('have Tukey limits of %d − %d', (a, b, low, high, p) => {
    const found = pair(tukey(groups), a, b);
    expect([found.low, found.high]).toEqual([near(low, 5), near(high, 5)]);
    expect(found.p).toBeCloseTo(p, 5);
  });

  it.each([
    // 3 − 2 is 0.66466 by R 4.2.2 (not run here); SciPy 1.17.1 and mpmath's quadrature: 0.664465.
    [3, 2, 0.664465], [4, 2, 0.035154], [4, 3, 0.0034506],
  ])('have the p of %d − %d', (a, b, p) => {
    expect(pair(tukey(groups), a, b).p).toBeCloseTo(p, 5);
  });

  it.each([
    [2, 1, 0.13142, 4.62858, 0.03846],
    [3, 1, 0.65468, 5.78532, 0.01658],
    [4, 2, -4.33987, -0.10013, 0.04048],
    [4, 3, -5.54223, -0.57777, 0.01874],
  ])('have Games-Howell limits of %d − %d', (a, b, low, high, p) => {
    const found = pair(gamesHowell(groups), a, b);
    expect([found.low, found.high, found.p]).toEqual([near(low, 5), near(high, 5), near(p, 5)]);
  });
});

describe('hardwood in paper', () => {
  // D. C. Montgomery, Design and Analysis of Experiments (data from memory); values by R 4.2.2.
  const groups = [
    [7, 8, 15, 11, 9, 10],
    [12, 17, 13, 18, 19, 15],
    [14, 18, 19, 17, 16, 18],
    [19, 25, 22, 23, 18, 20],
  ].map((group) => momentsOf(group));

  it('has the published analysis of variance', () => {
    const { f, p } = oneWay(groups)!;
    expect([f, p]).toEqual([near(19.605207, 6), near(3.5926e-6, 10)]);
    expect(welch(groups)).toEqual({ f: near(15.252859, 6), df1: 3, df2: near(10.87336, 6), p: near(3.26162e-4, 9) });
  });

  it('has the published Tukey limits', () => {
    const limits = [pair(tukey(groups), 2, 1), pair(tukey(groups), 4, 3)].map(({ low, high }) => [low, high]);
    expect(limits).toEqual([[near(1.5441, 5), near(9.78923, 5)], [near(0.0441, 5), near(8.28923, 5)]]);
  });
});

describe('blocks and two factors', () => {
  // R's data set npk (W. N. Venables, B. D. Ripley, Modern Applied Statistics with S; data from
  // memory), and R's table of yield ~ block + N*P*K.
  const yields = [
    49.5, 62.8, 46.8, 57.0, 59.8, 58.5, 55.5, 56.0, 62.8, 55.8, 69.5, 55.0,
    62.0, 48.8, 45.5, 44.2, 52.0, 51.5, 49.8, 48.8, 57.2, 59.0, 53.2, 56.0,
  ];
  const bits = (text: string): number[] => [...text].map(Number);
  const n = bits('010111000110110010101100');
  const p = bits('110001011100010110010110');
  const k = bits('100101100101011000111010');
  const blockOf = yields.map((_, i) => Math.floor(i / 4));
  const squares = { block: 343.295, n: 189.28167, p: 8.40167, k: 95.20167, residual: 185.28667 };

  it('have the sums of squares of R, one model after the other', () => {
    const models: number[][] = [yields.map(() => 1)];
    const left = (...columns: number[][]): number => {
      const before = leastSquares(models, yields).residualSquares;
      models.push(...columns);
      return before - leastSquares(models, yields).residualSquares;
    };
    const times = (...factors: number[][]): number[] =>
      yields.map((_, i) => factors.reduce((product, factor) => product * (factor[i]! - 0.5), 1));
    const blockColumns = [1, 2, 3, 4, 5].map((block) => blockOf.map((one) => Number(one === block)));
    expect(left(...blockColumns)).toBeCloseTo(squares.block, 3);
    expect([left(n), left(p), left(k)]).toEqual([near(squares.n, 4), near(squares.p, 4), near(squares.k, 4)]);
    left(times(n, p), times(n, k), times(p, k), times(n, p, k));
    const whole = leastSquares(models, yields);
    // N·P·K is confounded with blocks: its column is left out.
    expect([whole.residualSquares, whole.residualFreedom]).toEqual([near(squares.residual, 4), 12]);
    expect(squares.n / (whole.residualSquares / 12)).toBeCloseTo(12.25873, 4);
  });

  it('give F of the level within blocks', () => {
    const found = blocked(yields.map((value, i) => ({ row: n[i]!, column: blockOf[i]!, value })))!;
    // With N alone, all of R's other rows but the blocks are error: 876.365 in all.
    const variance = (876.365 - squares.block - squares.n) / 17;
    expect(found.dfWithin).toBe(17);
    expect(found.f).toBeCloseTo(squares.n / variance, 4);
    expect(found.fBlock).toBeCloseTo(squares.block / 5 / variance, 4);
  });

  interface Unbalanced {
    readonly row: readonly number[];
    readonly column: readonly number[];
    readonly value: readonly number[];
    readonly dfWithin: number;
  }
  const { blocked: inBlocks, twoFactor: inCells } = fixture<{
    blocked: Unbalanced & { f: number; fBlock: number; p: number };
    twoFactor: Unbalanced & { fRows: number; fColumns: number; fInteraction: number; dfInteraction: number };
  }>('unbalanced.json');
  const observations = ({ row, column, value }: Unbalanced) =>
    value.map((one, i) => ({ row: row[i]!, column: column[i]!, value: one }));

  it('may be incomplete: NumPy on the single observations', () => {
    const found = blocked(observations(inBlocks))!;
    expect(found.dfWithin).toBe(inBlocks.dfWithin);
    expect([found.f, found.fBlock, found.p]).toEqual(
      [near(inBlocks.f, 10), near(inBlocks.fBlock, 10), near(inBlocks.p, 10)],
    );
  });

  it('may have cells of any count: NumPy, each factor adjusted for the other', () => {
    const found = twoFactor(observations(inCells))!;
    expect(found.dfWithin).toBe(inCells.dfWithin);
    expect(found.rows.f).toBeCloseTo(inCells.fRows, 9);
    expect(found.columns.f).toBeCloseTo(inCells.fColumns, 9);
    expect(found.interaction).toMatchObject({ df: inCells.dfInteraction, f: near(inCells.fInteraction, 9) });
  });
});

describe('a parabola and its highest point', () => {
  // Strength of kraft paper by hardwood content, 19 points (data from memory); coefficients and
  // limits by R 4.2.2 and by SciPy 1.17.
  const x = [1, 1.5, 2, 3, 4, 4.5, 5, 5.5, 6, 6.5, 7, 8, 9, 10, 11, 12, 13, 14, 15];
  const y = [
    6.3, 11.1, 20, 24, 26.1, 30, 33.8, 34, 38.1, 39.9, 42, 46.1, 53.1, 52, 52.5, 48, 42.8, 27.8, 21.9,
  ];
  const fit = fitPolynomial(x, y, 2);

  it('has the published coefficients', () => {
    expect(fit.coefficients).toEqual([near(-6.67419161, 8), near(11.76400567, 8), near(-0.63454917, 8)]);
    expect([fit.residualVariance, fit.residualFreedom]).toEqual([near(19.539893, 6), 16]);
  });

  it('has the published Fieller limits, with t(0.975, 16) = 2.119905', () => {
    const [, slope = 0, bend = 0] = fit.coefficients;
    const of = (l: number[], m: number[]): number => fit.residualVariance * fit.covariance(l, m);
    const found = ratioLimits({
      a: -slope,
      b: 2 * bend,
      varianceA: of([0, 1, 0], [0, 1, 0]),
      varianceB: 4 * of([0, 0, 1], [0, 0, 1]),
      covariance: -2 * of([0, 1, 0], [0, 0, 1]),
      factor: 2.1199053,
    });
    expect(found.g).toBeCloseTo(0.04261, 5);
    expect(found.limits).toEqual({ low: near(8.82012, 5), high: near(9.84325, 5) });
  });

  it('has no limits where the bend can’t be told from none', () => {
    const flat = { a: 1, b: 0.1, varianceA: 1, varianceB: 0.01, covariance: 0, factor: 2 };
    expect(ratioLimits(flat)).toEqual({ g: near(4, 12), limits: null });
  });
});

describe('lack of fit', () => {
  it('is what is left beside the scatter of repeated points: worked out by hand', () => {
    // Line through means 0, 3, 0 with pairs ±1 about each: lack 12 (1), pure 6 (3).
    const groups = [[-1, 1], [2, 4], [-1, 1]];
    const fit = fitPolynomial([-1, -1, 0, 0, 1, 1], groups.flat(), 1);
    const found = lackOfFit(groups.map((group) => momentsOf(group)), fit)!;
    expect(found).toMatchObject({ dfLack: 1, dfPure: 3, f: near(6, 10) });
  });
});

describe('how many trials it takes', () => {
  // G*Power-like standard cases by R 4.2.2's power.anova.test and power.t.test, and J. Cohen,
  // Statistical Power Analysis for the Behavioral Sciences, 1988, for the first two.
  it('for several levels', () => {
    expect(anovaPower(4, 45, 0.25)).toBeCloseTo(0.803987, 6);
    expect(anovaPower(5, 16, 0.4)).toBeCloseTo(0.803085, 6);
    const effect = Math.sqrt(((4 - 1) / 4) * (1 / 3));
    expect(trialsFor((trials) => anovaPower(4, trials, effect), 0.8)).toBeCloseTo(11.92613, 4);
  });

  it('for two', () => {
    expect(trialsFor((trials) => pairPower(trials, 1), 0.9)).toBeCloseTo(22.0211, 4);
    expect(trialsFor((trials) => pairPower(trials, 0.001), 0.9)).toBeNull();
  });
});

describe('drift', () => {
  const levels = [0, 1, 2, 1, 2, 0, 2, 0, 1, 0, 2, 1];
  const noise = [3, -1, 2, -4, 1, 0, -2, 4, -3, 1, -1, 2];
  const trials = (slope: number) =>
    levels.map((group, order) => ({ group, order, value: 50 * group + slope * order + noise[order]! * 0.1 }));

  it('is found, whatever the levels are', () => {
    const found = drift(trials(0.5))!;
    expect(found.slope).toBeCloseTo(0.5, 1);
    expect([found.p < 1e-6, found.rankP < 1e-3, found.successiveP < 0.01]).toEqual([true, true, true]);
  });

  it('is not where there is none', () => {
    const found = drift(trials(0))!;
    expect([found.p > 0.05, found.rankP > 0.05, found.successiveP > 0.05]).toEqual([true, true, true]);
  });

  it('can’t be told of a few trials', () => {
    expect(drift(trials(0.5).slice(0, 7))).toBeNull();
  });
});

describe('analysis of covariance', () => {
  // Scores of a skin disease before and after three drugs: G. W. Snedecor, W. G. Cochran, Statistical
  // Methods, 6th ed., table 14.2.1; estimates as printed in the documentation of a general linear
  // models procedure, to the digits given. Data and results from memory.
  const BEFORE = [
    [11, 8, 5, 14, 19, 6, 10, 6, 11, 3],
    [6, 6, 7, 8, 18, 8, 19, 8, 5, 15],
    [16, 13, 11, 9, 21, 16, 12, 12, 7, 12],
  ];
  const AFTER = [
    [6, 0, 2, 8, 11, 4, 13, 1, 8, 0],
    [0, 2, 3, 1, 18, 4, 14, 9, 1, 9],
    [13, 10, 18, 5, 23, 12, 5, 16, 1, 20],
  ];
  const observed = BEFORE.flatMap((xs, group) => xs.map((x, i) => ({ group, x, y: AFTER[group]![i]! })));

  it('has the slope, the adjusted means and the test of the worked example', () => {
    const found = covarianceAnalysis(observed)!;
    expect(found.slope).toBeCloseTo(0.987183811, 8);
    expect(found.slopeUncertainty).toBeCloseTo(0.16449757, 7);
    expect(found.f).toBeCloseTo(2.14, 2);
    expect(found.p).toBeCloseTo(0.1384, 4);
    const means = found.adjusted.map(({ mean }) => mean);
    [6.7149635, 6.8239348, 10.1611017].forEach((mean, i) => expect(means[i]).toBeCloseTo(mean, 6));
  });

  it('is the same whatever x is counted from and in', () => {
    const plain = covarianceAnalysis(observed)!;
    const moved = covarianceAnalysis(observed.map((one) => ({ ...one, x: 1e6 + one.x / 1000 })))!;
    expect(moved.f).toBeCloseTo(plain.f, 6);
    expect(moved.slope / 1000).toBeCloseTo(plain.slope, 6);
  });

  it('is not told where it can not be', () => {
    expect(covarianceAnalysis([])).toBeNull();
    expect(covarianceAnalysis(observed.filter(({ group }) => group === 0))).toBeNull();
    expect(covarianceAnalysis(observed.map((one) => ({ ...one, x: 5 })))).toBeNull();
    expect(covarianceAnalysis(observed.map((one) => ({ ...one, y: 5 })))).toBeNull();
  });
});
