/**
 * Propagation, coverage and budgets against worked examples of JCGM 100:2008 (GUM) and JCGM 101:2008,
 * and against general-purpose packages: budget-fixture.json holds what NumPy, SciPy and the package
 * `uncertainties` make of the same inputs, with versions and seed; budget-fixture.py makes it anew.
 * "From memory": the source was not opened while this was written.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { budgetOf, type Rig } from '#core/experiment/budget/budget.ts';
import { differenceOf, ratioOf } from '#core/experiment/budget/contrast.ts';
import { coverageFactor } from '#core/metrology/coverage.ts';
import { drawResult, isGoodEnough } from '#core/metrology/draws.ts';
import { correlation, independent, propagate, sharesOf } from '#core/metrology/propagate.ts';
import { covarianceOfMeans } from '#core/metrology/type-a/independent.ts';
import { meanOf } from '#core/metrology/type-a/series.ts';
import { studentTQuantile } from '#core/statistics/student-t.ts';
import { normalUpperTail } from '#core/statistics/normal.ts';
import { between, createRandom, normal, type Random } from '#core/virtual-rig/random.ts';
import { budgetedTrial, DIVIDER_AND_SHUNT } from '../../support/budgets.ts';

interface Fixture {
  gumH2: { values: number[]; u: number[]; correlation: number[][] };
  powerCoefficient: { value: number; u: number; shares: number[] };
  coverageFactors: { share: number; k: number }[];
  normalLaw: { x: number; p: number }[];
  rig: Record<'a' | 'b' | 'difference' | 'ratio', { value: number; u: number }>;
  additive: Record<'same' | 'unlike', [number, number]>;
}
const FIXTURE = JSON.parse(
  readFileSync(join(import.meta.dirname, 'budget-fixture.json'), 'utf8'),
) as Fixture;

/** Decimal digits in which two numbers agree. */
function digits(value: number, wanted: number): number {
  return value === wanted ? 16 : -Math.log10(Math.abs(value / wanted - 1));
}

/** GUM H.2, table H.2: five simultaneous observations of V, I and φ. */
const H2 = [
  [5.007, 4.994, 5.005, 4.99, 4.999],
  [19.663e-3, 19.639e-3, 19.64e-3, 19.685e-3, 19.678e-3],
  [1.0456, 1.0438, 1.0468, 1.0428, 1.0433],
] as const;

describe('GUM H.2: resistance, reactance and impedance of one circuit element', () => {
  const found = propagate({
    values: H2.map((row) => meanOf(row)),
    covariance: H2.map((one) => H2.map((other) => covarianceOfMeans(one, other))),
    model: ([v = 0, i = 0, phi = 0]) => [
      (v / i) * Math.cos(phi),
      (v / i) * Math.sin(phi),
      v / i,
      v * i,
    ],
  });

  it.each([
    ['R', 0, 127.732, 0.071],
    ['X', 1, 219.847, 0.295],
    ['Z', 2, 254.26, 0.236],
  ] as const)('%s with its uncertainty, as printed', (_, at, value, u) => {
    expect(Math.abs((found.values[at] ?? NaN) - value)).toBeLessThan(0.001);
    expect(Math.abs((found.standardUncertainties[at] ?? NaN) - u)).toBeLessThan(0.001);
  });

  it('correlations of R, X and Z, as printed', () => {
    expect(Math.abs(correlation(found.covariance, 0, 1) + 0.588)).toBeLessThan(0.001);
    expect(Math.abs(correlation(found.covariance, 0, 2) + 0.485)).toBeLessThan(0.001);
    expect(Math.abs(correlation(found.covariance, 1, 2) - 0.993)).toBeLessThan(0.001);
  });

  it('without the correlations u(R) would be 0.195, which the GUM warns of', () => {
    const u = H2.map((row) => Math.sqrt(covarianceOfMeans(row, row)));
    const alone = propagate({
      values: H2.map((row) => meanOf(row)),
      covariance: independent(u),
      model: ([v = 0, i = 0, phi = 0]) => [(v / i) * Math.cos(phi)],
    });
    expect(alone.standardUncertainties[0]).toBeCloseTo(0.195, 3);
  });

  it('every number of it, and P = V·I, to ten digits of what `uncertainties` finds', () => {
    FIXTURE.gumH2.values.forEach((value, at) => {
      expect(digits(found.values[at] ?? NaN, value)).toBeGreaterThan(12);
      expect(digits(found.standardUncertainties[at] ?? NaN, FIXTURE.gumH2.u[at] ?? NaN)).toBeGreaterThan(10);
      FIXTURE.gumH2.correlation[at]?.forEach((r, other) => {
        expect(correlation(found.covariance, at, other)).toBeCloseTo(r, 9);
      });
    });
    expect(found.values[3]).toBeCloseTo(0.098285, 6);
    expect(found.standardUncertainties[3]).toBeCloseTo(6.403e-5, 8);
  });
});

describe('GUM H.1: calibration of an end gauge (from memory)', () => {
  /** Length of the standard, comparison, and what temperature and expansion differ by; nm, °C. */
  const values = [50_000_623, 215, 0, -0.1, 11.5e-6, 0];
  const u = [25, 9.7, 0.58e-6, 0.41, 1.2e-6, 0.029];
  const model = ([s = 0, d = 0, da = 0, t = 0, a = 0, dt = 0]: readonly number[]) => [
    s + d - s * (da * t + a * dt),
  ];

  it('50.000838 mm with 32 nm', () => {
    const { values: [length], standardUncertainties } = propagate({ values, covariance: independent(u), model });
    expect(length).toBeCloseTo(50_000_838, 0);
    expect(standardUncertainties[0]).toBeCloseTo(32, 0);
  });

  it('with what is left out by the linear form it is 34 nm', () => {
    const random = createRandom(1);
    const drawn = drawResult(
      () => model(values.map((value, i) => value + (u[i] ?? 0) * normal(random)))[0] ?? NaN,
      200_000,
    );
    expect(drawn.standardUncertainty).toBeCloseTo(34, 0);
  });
});

describe('a power coefficient: P/(½ρ·π/4·D²·V³)', () => {
  it('value, uncertainty and shares to ten digits of what `uncertainties` finds', () => {
    const covariance = independent([0.003, 0.004, 0.002, 0.12]);
    const found = propagate({
      values: [0.15, 1.1993, 0.4, 4],
      covariance,
      model: ([p = 0, rho = 0, d = 0, v = 0]) => [p / (0.5 * rho * (Math.PI / 4) * d ** 2 * v ** 3)],
    });
    const { value, u, shares } = FIXTURE.powerCoefficient;
    expect(digits(found.values[0] ?? NaN, value)).toBeGreaterThan(14);
    expect(digits(found.standardUncertainties[0] ?? NaN, u)).toBeGreaterThan(9);
    sharesOf(found, covariance).forEach((share, i) => {
      expect(digits(share, shares[i] ?? NaN)).toBeGreaterThan(8);
    });
    // Independent figures, to the digits they were given with.
    expect(found.values[0]).toBeCloseTo(0.031103, 6);
    expect(found.standardUncertainties[0]).toBeCloseTo(0.002886, 6);
  });

  it('given sensitivities take the place of differences', () => {
    const both = { values: [3, 4], covariance: [[0.01, 0.005], [0.005, 0.04]] };
    const model = ([a = 0, b = 0]: readonly number[]) => [a * b];
    const numeric = propagate({ ...both, model });
    const exact = propagate({ ...both, model, sensitivities: ([a = 0, b = 0]) => [[b, a]] });
    expect(digits(numeric.standardUncertainties[0] ?? NaN, exact.standardUncertainties[0] ?? NaN)).toBeGreaterThan(11);
  });

  it('refuses covariances that do not fit', () => {
    expect(() => propagate({ values: [1, 2], covariance: [[1]], model: () => [1] })).toThrow(RangeError);
  });
});

describe('coverage factors', () => {
  it('the normal law to fourteen digits of SciPy', () => {
    for (const { x, p } of FIXTURE.normalLaw) expect(digits(normalUpperTail(-x), p)).toBeGreaterThan(13);
  });

  it('a rectangle and a normal law together, to six digits of SciPy’s quadrature', () => {
    for (const { share, k } of FIXTURE.coverageFactors) {
      const found = coverageFactor({ largestRectangle: share, degreesOfFreedom: Infinity });
      expect(digits(found, k)).toBeGreaterThan(6);
    }
  });

  it('a rectangle alone: 0.95·√3 (GUM G.1.3, table G.1 for p = 95 %: 1.65, from memory)', () => {
    expect(coverageFactor({ largestRectangle: 1, degreesOfFreedom: Infinity })).toBeCloseTo(1.645, 3);
  });

  it('no rectangle: Student’s t (GUM table G.2: 2.26 for nine degrees of freedom)', () => {
    expect(coverageFactor({ largestRectangle: 0, degreesOfFreedom: 9 })).toBeCloseTo(2.262, 3);
  });

  it.each([60, 200, 1e4, 1e6])('%i degrees of freedom: seven digits of Student’s t', (degreesOfFreedom) => {
    const found = coverageFactor({ largestRectangle: 0, degreesOfFreedom });
    expect(digits(found, studentTQuantile(0.975, degreesOfFreedom))).toBeGreaterThan(6.5);
  });

  it('two equal rectangles make a triangle: √6·(1 − √0.05) = 1.902, held to 1 %', () => {
    const found = coverageFactor({ largestRectangle: 0.5, degreesOfFreedom: Infinity });
    expect(Math.abs(found / (Math.sqrt(6) * (1 - Math.sqrt(0.05))) - 1)).toBeLessThan(0.01);
  });

  it('JCGM 101, 9.2.4: three rectangles of 1 and one of 10 reach to ±17.0, not ±19.9 (from memory)', () => {
    const u = Math.sqrt(103);
    const reach = u * coverageFactor({ largestRectangle: 100 / 103, degreesOfFreedom: Infinity });
    expect(reach).toBeCloseTo(17, 1);
    expect(reach).toBeCloseTo(FIXTURE.additive.unlike[1], 1);
    expect(u * 1.96).toBeCloseTo(19.9, 1);
  });
});

describe('propagation of distributions by draws', () => {
  const rectangle = (random: Random, u: number) => between(random, -Math.sqrt(3) * u, Math.sqrt(3) * u);
  const DRAWS = 200_000;

  it('JCGM 101, 9.2.2: four normal laws, ±3.92', () => {
    const random = createRandom(922);
    const sum = () => normal(random) + normal(random) + normal(random) + normal(random);
    const drawn = drawResult(sum, DRAWS);
    expect(drawn.standardUncertainty).toBeCloseTo(2, 1);
    expect(Math.abs(drawn.high - 3.92)).toBeLessThan(0.03);
    expect(isGoodEnough({ low: -3.92, high: 3.92 }, drawn)).toBe(true);
  });

  it('JCGM 101, 9.2.3 and 9.2.4: rectangles, against ten million draws of NumPy', () => {
    const random = createRandom(923);
    const same = () => Array.from({ length: 4 }, () => rectangle(random, 1)).reduce((a, b) => a + b);
    const unlike = () => rectangle(random, 10) + rectangle(random, 1) + rectangle(random, 1) + rectangle(random, 1);
    const [ofSame, ofUnlike] = [drawResult(same, DRAWS), drawResult(unlike, DRAWS)];
    expect(Math.abs(ofSame.high - FIXTURE.additive.same[1])).toBeLessThan(0.03);
    expect(Math.abs(ofUnlike.high - FIXTURE.additive.unlike[1])).toBeLessThan(0.06);
    expect(isGoodEnough({ low: -19.9, high: 19.9 }, ofUnlike)).toBe(false);
  });

  it.each([
    // x₁, and mean, u, ends of the interval of δY = X₁² + X₂², u(x) = 0.005, in 1e-6
    [0, 50, 50, 0, 150],
    [0.01, 150, 112, 0, 367],
    [0.05, 2550, 502, 1590, 3543],
  ])('JCGM 101, 9.4.3.2: comparison loss at x₁ = %f (from memory)', (x, mean, u, shortLow, shortHigh) => {
    const random = createRandom(943);
    const drawn = drawResult(
      () => 1e6 * ((x + 0.005 * normal(random)) ** 2 + (0.005 * normal(random)) ** 2),
      DRAWS,
    );
    expect(Math.abs(drawn.mean / mean - 1)).toBeLessThan(0.02);
    expect(Math.abs(drawn.standardUncertainty / u - 1)).toBeLessThan(0.02);
    // There the shortest interval is printed: it lies no higher than the symmetric one.
    expect(drawn.low).toBeGreaterThanOrEqual(shortLow - 10);
    expect(drawn.high).toBeGreaterThan(shortHigh - 10);
    // The law of propagation knows 2·x₁·u(x) only: nothing at all at x₁ = 0.
    const linear = propagate({
      values: [x, 0],
      covariance: independent([0.005, 0.005]),
      model: ([a = 0, b = 0]) => [1e6 * (a * a + b * b)],
    });
    expect(linear.standardUncertainties[0]).toBeCloseTo(1e4 * x, 6);
    const reach = 1.96 * (linear.standardUncertainties[0] ?? NaN);
    const interval = { low: (linear.values[0] ?? NaN) - reach, high: (linear.values[0] ?? NaN) + reach };
    expect(isGoodEnough(interval, drawn)).toBe(false);
  });
});

describe('budgets against the package `uncertainties`', () => {
  const rig: Rig = { id: 'rig', instrument: DIVIDER_AND_SHUNT };
  const trial = (id: number, v: number, i: number, u_V: number, u_A: number) =>
    budgetedTrial({ id, v, i, u_V, u_A, u_W: 0.004 * v * i });
  const a = budgetOf(trial(1, 3.2, 0.052, 0.0016, 0.00003), rig)!;
  const b = budgetOf(trial(2, 2.1, 0.034, 0.0012, 0.00002), rig)!;

  // The term of second order, which they leave out, is some millionths here.
  it('power of one trial', () => {
    expect(digits(a.value_W, FIXTURE.rig.a.value)).toBeGreaterThan(14);
    expect(digits(a.standardUncertainty_W, FIXTURE.rig.a.u)).toBeGreaterThan(3.3);
    expect(digits(b.standardUncertainty_W, FIXTURE.rig.b.u)).toBeGreaterThan(3.3);
    const second = a.rows.find(({ cause }) => cause === 'both at once')?.contribution_W ?? NaN;
    const first = Math.sqrt(a.standardUncertainty_W ** 2 - second ** 2);
    expect(digits(first, FIXTURE.rig.a.u)).toBeGreaterThan(11);
  });

  it('difference and ratio of two trials', () => {
    const difference = differenceOf([a], [b]);
    const ratio = ratioOf([a], [b])!;
    expect(digits(difference.value, FIXTURE.rig.difference.value)).toBeGreaterThan(12);
    expect(digits(difference.standardUncertainty, FIXTURE.rig.difference.u)).toBeGreaterThan(3);
    expect(digits(ratio.value, FIXTURE.rig.ratio.value)).toBeGreaterThan(13);
    expect(digits(ratio.standardUncertainty, FIXTURE.rig.ratio.u)).toBeGreaterThan(3);
  });
});
