/**
 * Worked examples of the Guide to the expression of uncertainty in measurement, JCGM 100:2008. "From
 * memory": the source was not opened while this was written.
 */
import { describe, expect, it } from 'vitest';
import { keyedTrial, type KeyedReadings } from '#core/experiment/keyed.ts';
import { meterUncertainty } from '#core/instrument/meter.ts';
import { combine } from '#core/metrology/combine.ts';
import { expandedUncertainty } from '#core/metrology/format.ts';
import {
  covarianceOfMeans,
  scatterOfMean,
  scatterOfProduct,
} from '#core/metrology/type-a/independent.ts';

/** GUM H.2, table H.2: five simultaneous observations of V, I and φ. */
const VOLTAGE_V = [5.007, 4.994, 5.005, 4.99, 4.999];
const CURRENT_MA = [19.663, 19.639, 19.64, 19.685, 19.678];
const PHASE_RAD = [1.0456, 1.0438, 1.0468, 1.0428, 1.0433];

describe('GUM H.2: simultaneous readings', () => {
  it('standard uncertainties of the means', () => {
    expect(scatterOfMean(VOLTAGE_V)?.u).toBeCloseTo(0.0032, 4);
    expect(scatterOfMean(CURRENT_MA)?.u).toBeCloseTo(0.0095, 4);
    expect(scatterOfMean(PHASE_RAD)?.u).toBeCloseTo(0.00075, 5);
    expect(scatterOfMean(PHASE_RAD)?.degreesOfFreedom).toBe(4);
  });

  it.each([
    [VOLTAGE_V, CURRENT_MA, -0.36],
    [VOLTAGE_V, PHASE_RAD, 0.86],
    [CURRENT_MA, PHASE_RAD, -0.65],
  ])('correlation coefficients of the means', (q, r, coefficient) => {
    const correlation =
      covarianceOfMeans(q, r) / ((scatterOfMean(q)?.u ?? NaN) * (scatterOfMean(r)?.u ?? NaN));
    expect(correlation).toBeCloseTo(coefficient, 2);
  });

  it('power of the pairs, to first order what the products themselves scatter', () => {
    const products = VOLTAGE_V.map((voltage, k) => voltage * (CURRENT_MA[k] ?? NaN));
    const ofProducts = scatterOfMean(products)?.u ?? NaN;
    const propagated = scatterOfProduct(VOLTAGE_V, CURRENT_MA)?.u ?? NaN;
    expect(Math.abs(propagated / ofProducts - 1)).toBeLessThan(0.002);
    // Without the covariance it would be a quarter more.
    const independent = Math.hypot(
      4.999 * (scatterOfMean(CURRENT_MA)?.u ?? NaN),
      19.661 * (scatterOfMean(VOLTAGE_V)?.u ?? NaN),
    );
    expect(independent / propagated).toBeGreaterThan(1.2);
  });
});

describe('a voltmeter: GUM 4.3.7, example 2, and 5.1.5 (from memory)', () => {
  // 14e-6 of the reading and 2e-6 of the range of 1 V: two counts of 1 µV.
  const meter = { range: 1, resolution: 1e-6, relative: 14e-6, counts: 2 };

  it('limits of ±15 µV are u = 8.7 µV', () => {
    expect(meterUncertainty(meter, { value: 0.928571, step: 1e-6 })).toBeCloseTo(8.7e-6, 7);
  });

  it('with the scatter of 12 µV the combined uncertainty is 15 µV', () => {
    const u = meterUncertainty(meter, { value: 0.928571, step: 1e-6 });
    const combined = combine([
      { u: 12e-6, degreesOfFreedom: 9 },
      { u, degreesOfFreedom: Infinity },
    ]);
    expect(combined.u).toBeCloseTo(15e-6, 6);
  });
});

describe('the formula of Welch and Satterthwaite', () => {
  it('GUM G.4.1, example: three inputs of 10, 5 and 15 readings (from memory)', () => {
    const { u, degreesOfFreedom } = combine([
      { u: 0.25, degreesOfFreedom: 9 },
      { u: 0.57, degreesOfFreedom: 4 },
      { u: 0.82, degreesOfFreedom: 14 },
    ]);
    expect(u).toBeCloseTo(1.03, 2);
    expect(degreesOfFreedom).toBeCloseTo(19, 0);
  });

  it('GUM H.1.6: end gauge, 32 nm with 16 degrees of freedom (from memory)', () => {
    // The difference between gauge and standard: 5.8 nm (24), 3.9 nm (5), 6.7 nm (8).
    const difference = combine([
      { u: 5.8, degreesOfFreedom: 24 },
      { u: 3.9, degreesOfFreedom: 5 },
      { u: 6.7, degreesOfFreedom: 8 },
    ]);
    expect(difference.u).toBeCloseTo(9.7, 1);
    // Printed: 25.6, from the rounded 9.7 nm.
    const printed = difference.degreesOfFreedom * (9.7 / difference.u) ** 4;
    expect(printed).toBeCloseTo(25.6, 1);
    // With the standard, 25 nm (18), and what temperature does, 2.9 nm (50) and 16.6 nm (2).
    const length = combine([
      difference,
      { u: 25, degreesOfFreedom: 18 },
      { u: 2.9, degreesOfFreedom: 50 },
      { u: 16.6, degreesOfFreedom: 2 },
    ]);
    expect(length.u).toBeCloseTo(32, 0);
    expect(Math.floor(length.degreesOfFreedom)).toBe(16);
  });
});

describe('readings keyed in from two meters', () => {
  const written = (value: number, step: number) => ({ value, step });

  it('GUM H.2’s voltages and currents through perfect meters: the scatter alone', () => {
    const perfect = { range: 100, resolution: 1e-9, relative: 0, counts: 1, unit: 'V' };
    const readings: KeyedReadings = {
      runId: null,
      note: null,
      didNotTurn: false,
      meters: { voltage: perfect, current: perfect, windSpeed: null },
      readings: VOLTAGE_V.map((voltage, k) => ({
        voltage: written(voltage, 1e-9),
        current: written((CURRENT_MA[k] ?? NaN) / 1000, 1e-9),
        windSpeed: null,
      })),
    };
    const { voltage_V, current_A, power_W } = keyedTrial(readings);
    expect(voltage_V?.value).toBeCloseTo(4.999, 4);
    expect(voltage_V?.standardUncertainty).toBeCloseTo(0.0032, 4);
    expect(current_A?.standardUncertainty).toBeCloseTo(9.5e-6, 7);
    expect(power_W?.value).toBeCloseTo(4.999 * 0.019661, 6);
    expect(power_W?.degreesOfFreedom).toBeCloseTo(4, 3);
    // Student's factor for 4 degrees of freedom and 95 %: 2.776 (GUM, table G.2: 2.78).
    const ratio = (expandedUncertainty(power_W!) ?? NaN) / (power_W?.standardUncertainty ?? NaN);
    expect(ratio).toBeCloseTo(2.776, 3);
  });
});
