/**
 * NIST Statistical Reference Datasets, univariate summary statistics (US government work): data
 * and certified values of Lottery, Mavro, Michelso and NumAcc1 to NumAcc4,
 * https://www.itl.nist.gov/div898/strd/univ/homepage.html
 * Agreement is counted in digits: the log relative error, −log10(|x − c|/|c|).
 */
import { describe, expect, it } from 'vitest';
import {
  lagOneAutocorrelationOf,
  meanOf,
  standardDeviationOf,
} from '#core/metrology/type-a/series.ts';
import { meanInterval } from '#core/statistics/mean-interval.ts';

// prettier-ignore
const MAVRO = [
  2.0018, 2.0017, 2.0018, 2.0019, 2.0018, 2.0017, 2.0015, 2.0014, 2.0015, 2.0015, 2.0017, 2.0018,
  2.0018, 2.0019, 2.0019, 2.0021, 2.002, 2.0016, 2.0014, 2.0013, 2.0013, 2.0015, 2.0015, 2.0016,
  2.0015, 2.0014, 2.0013, 2.0014, 2.0015, 2.0014, 2.0015, 2.0016, 2.0015, 2.0016, 2.0019, 2.002,
  2.002, 2.0021, 2.0022, 2.0023, 2.0024, 2.0025, 2.0027, 2.0026, 2.0026, 2.0026, 2.0027, 2.0026,
  2.0025, 2.0024,
];
// prettier-ignore
const MICHELSO = [
  299.85, 299.74, 299.9, 300.07, 299.93, 299.85, 299.95, 299.98, 299.98, 299.88, 300.0, 299.98,
  299.93, 299.65, 299.76, 299.81, 300.0, 300.0, 299.96, 299.96, 299.96, 299.94, 299.96, 299.94,
  299.88, 299.8, 299.85, 299.88, 299.9, 299.84, 299.83, 299.79, 299.81, 299.88, 299.88, 299.83,
  299.8, 299.79, 299.76, 299.8, 299.88, 299.88, 299.88, 299.86, 299.72, 299.72, 299.62, 299.86,
  299.97, 299.95, 299.88, 299.91, 299.85, 299.87, 299.84, 299.84, 299.85, 299.84, 299.84, 299.84,
  299.89, 299.81, 299.81, 299.82, 299.8, 299.77, 299.76, 299.74, 299.75, 299.76, 299.91, 299.92,
  299.89, 299.86, 299.88, 299.72, 299.84, 299.85, 299.85, 299.78, 299.89, 299.84, 299.78, 299.81,
  299.76, 299.81, 299.79, 299.81, 299.82, 299.85, 299.87, 299.87, 299.81, 299.74, 299.81, 299.94,
  299.95, 299.8, 299.81, 299.87,
];
// prettier-ignore
const LOTTERY = [
  162, 671, 933, 414, 788, 730, 817, 33, 536, 875, 670, 236, 473, 167, 877, 980, 316, 950, 456,
  92, 517, 557, 956, 954, 104, 178, 794, 278, 147, 773, 437, 435, 502, 610, 582, 780, 689, 562,
  964, 791, 28, 97, 848, 281, 858, 538, 660, 972, 671, 613, 867, 448, 738, 966, 139, 636, 847,
  659, 754, 243, 122, 455, 195, 968, 793, 59, 730, 361, 574, 522, 97, 762, 431, 158, 429, 414,
  22, 629, 788, 999, 187, 215, 810, 782, 47, 34, 108, 986, 25, 644, 829, 630, 315, 567, 919, 331,
  207, 412, 242, 607, 668, 944, 749, 168, 864, 442, 533, 805, 372, 63, 458, 777, 416, 340, 436,
  140, 919, 350, 510, 572, 905, 900, 85, 389, 473, 758, 444, 169, 625, 692, 140, 897, 672, 288,
  312, 860, 724, 226, 884, 508, 976, 741, 476, 417, 831, 15, 318, 432, 241, 114, 799, 955, 833,
  358, 935, 146, 630, 830, 440, 642, 356, 373, 271, 715, 367, 393, 190, 669, 8, 861, 108, 795,
  269, 590, 326, 866, 64, 523, 862, 840, 219, 382, 998, 4, 628, 305, 747, 247, 34, 747, 729, 645,
  856, 974, 24, 568, 24, 694, 608, 480, 410, 729, 947, 293, 53, 930, 223, 203, 677, 227, 62, 455,
  387, 318, 562, 242, 428, 968,
];

/** first, then the pair low, high 500 times. */
function alternating(first: number, low: number, high: number): number[] {
  return [first, ...Array.from({ length: 1000 }, (_, i) => (i % 2 === 0 ? low : high))];
}

interface Certified {
  readonly name: string;
  readonly values: readonly number[];
  readonly mean: number;
  readonly standardDeviation: number;
  readonly lagOne: number;
  /** Digits that doubles can be held to: the constructed sets lose their leading ones. */
  readonly digits: { readonly mean: number; readonly deviation: number; readonly lagOne: number };
}

const PLAIN = { mean: 14, deviation: 13, lagOne: 12 };
const SETS: readonly Certified[] = [
  {
    name: 'Lottery',
    values: LOTTERY,
    mean: 518.95871559633,
    standardDeviation: 291.699727470969,
    lagOne: -0.120948622967393,
    digits: { ...PLAIN, mean: 13 },
  },
  {
    name: 'Mavro',
    values: MAVRO,
    mean: 2.001856,
    standardDeviation: 0.000429123454003053,
    lagOne: 0.937989183438248,
    digits: PLAIN,
  },
  {
    name: 'Michelso',
    values: MICHELSO,
    mean: 299.8524,
    standardDeviation: 0.0790105478190518,
    lagOne: 0.535199668621283,
    digits: PLAIN,
  },
  {
    name: 'NumAcc1',
    values: [10000001, 10000003, 10000002],
    mean: 10000002,
    standardDeviation: 1,
    lagOne: -0.5,
    digits: PLAIN,
  },
  {
    name: 'NumAcc2',
    values: alternating(1.2, 1.1, 1.3),
    mean: 1.2,
    standardDeviation: 0.1,
    lagOne: -0.999,
    digits: PLAIN,
  },
  {
    name: 'NumAcc3',
    values: alternating(1000000.2, 1000000.1, 1000000.3),
    mean: 1000000.2,
    standardDeviation: 0.1,
    lagOne: -0.999,
    digits: { mean: 14, deviation: 8, lagOne: 8 },
  },
  {
    name: 'NumAcc4',
    values: alternating(10000000.2, 10000000.1, 10000000.3),
    mean: 10000000.2,
    standardDeviation: 0.1,
    lagOne: -0.999,
    digits: { mean: 14, deviation: 7, lagOne: 7 },
  },
];

function digitsOfAgreement(value: number, certified: number): number {
  return value === certified ? 15 : -Math.log10(Math.abs((value - certified) / certified));
}

describe.each(SETS)('$name', ({ values, mean, standardDeviation, lagOne, digits }) => {
  it('has the certified mean', () => {
    expect(digitsOfAgreement(meanOf(values), mean)).toBeGreaterThanOrEqual(digits.mean);
  });

  it('has the certified standard deviation', () => {
    const found = digitsOfAgreement(standardDeviationOf(values), standardDeviation);
    expect(found).toBeGreaterThanOrEqual(digits.deviation);
  });

  it('has the certified lag-1 autocorrelation', () => {
    const found = digitsOfAgreement(lagOneAutocorrelationOf(values), lagOne);
    expect(found).toBeGreaterThanOrEqual(digits.lagOne);
  });
});

describe('the interval of a mean', () => {
  it('is t·s/√n: Mavro, with t(0.975, 49) = 2.010 (NIST/SEMATECH e-Handbook, 1.3.6.7.2)', () => {
    const { mean, halfWidth, count } = meanInterval(MAVRO);
    expect([mean, count]).toEqual([expect.closeTo(2.001856, 12), 50]);
    expect(halfWidth).toBeCloseTo((2.01 * 0.000429123454003053) / Math.sqrt(50), 7);
  });

  it('tells nothing of the scatter of one value', () => {
    expect(meanInterval([0.243])).toEqual({ mean: 0.243, halfWidth: null, count: 1 });
  });
});
