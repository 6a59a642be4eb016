/**
 * Worked examples of the Guide to the expression of uncertainty in measurement, JCGM 100:2008, and
 * of public data sheets. "From memory": the source was not opened while this was written.
 */
import { describe, expect, it } from 'vitest';
import { fitLine } from '#core/instrument/line-fit.ts';
import { meterLimit } from '#core/instrument/meter-comparison.ts';
import {
  MONITOR_PARTS,
  monitorCurrentChannel,
  monitorVoltageChannel,
} from '#core/instrument/monitor.ts';
import { ofStep, powerUncertainty, rectangular } from '#core/instrument/tolerance.ts';

describe('tolerances', () => {
  it('GUM 4.3.7, example 1: expansion of copper, ±0.40e-6/K is u = 0.23e-6/K (from memory)', () => {
    expect(rectangular(0.4e-6)).toBeCloseTo(0.23e-6, 8);
    expect(rectangular(0.4e-6) ** 2).toBeCloseTo(53.3e-15, 16);
  });

  it('GUM 4.3.7, example 2: a voltmeter, ±15 µV is u = 8.7 µV (from memory)', () => {
    const limit_V = 14e-6 * 0.928571 + 2e-6 * 1;
    expect(limit_V).toBeCloseTo(15e-6, 7);
    expect(rectangular(limit_V)).toBeCloseTo(8.7e-6, 7);
  });

  it('GUM F.2.2.1: a resolution of δx brings u = 0.29 δx (from memory)', () => {
    expect(ofStep(1)).toBeCloseTo(0.29, 2);
  });

  it('GUM 5.2.2, example: what is common to all adds up, 10 × 0.1 Ω is 1 Ω (from memory)', () => {
    const common = { relative: 0.1, shared: 0.1, own: 0, causes: [] };
    const alone = { relative: 0.1, shared: 0, own: 0.1, causes: [] };
    expect(powerUncertainty(common, common)).toBeCloseTo(0.2, 12);
    expect(powerUncertainty(alone, alone)).toBeCloseTo(Math.SQRT2 * 0.1, 12);
  });
});

describe('multimeters: worked arithmetic of ±(% of reading + counts), common practice', () => {
  it('±(2.5 % + 3) at 32.00 is ±0.83', () => {
    const accuracy = { relative: 0.025, counts: 3 };
    expect(meterLimit(accuracy, { value: 32, resolution: 0.01 })).toBeCloseTo(0.83, 12);
  });

  it('±(0.08 % + 2) at 2.000 is 1.9964 to 2.0036', () => {
    const accuracy = { relative: 0.0008, counts: 2 };
    expect(meterLimit(accuracy, { value: 2, resolution: 0.001 })).toBeCloseTo(0.0036, 12);
  });
});

describe('calibration lines', () => {
  it('GUM H.3: calibration of a thermometer, b = y1 + y2 (t − 20 °C)', () => {
    // prettier-ignore
    const t = [
      21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511,
    ];
    const b = [171, 169, 166, 159, 164, 165, 156, 157, 159, 161, 160].map((one) => -one / 1000);
    // There the scatter alone gives the uncertainty; so each u is set far below it.
    const u = 1e-6;
    const fit = fitLine(t.map((one, i) => ({ x: one - 20, y: b[i] ?? Number.NaN, u })));
    if (fit === null) throw new Error('no fit');
    expect(fit.intercept).toBeCloseTo(-0.1712, 4);
    expect(fit.interceptUncertainty).toBeCloseTo(0.0029, 4);
    expect(fit.slope).toBeCloseTo(0.00218, 5);
    expect(fit.slopeUncertainty).toBeCloseTo(0.00067, 5);
    expect(fit.correlation).toBeCloseTo(-0.93, 3);
    expect((fit.birgeRatio ?? 0) * u).toBeCloseTo(0.0035, 4);
    const at30 = fit.intercept + 10 * fit.slope;
    const variance =
      fit.interceptUncertainty ** 2 +
      (10 * fit.slopeUncertainty) ** 2 +
      20 * fit.interceptUncertainty * fit.slopeUncertainty * fit.correlation;
    expect(at30).toBeCloseTo(-0.1494, 4);
    expect(Math.sqrt(variance)).toBeCloseTo(0.0041, 4);
  });

  it('NIST StRD Norris: certified line and deviations, calibration of ozone monitors', () => {
    // https://www.itl.nist.gov/div898/strd/lls/data/Norris.shtml (US government work)
    // prettier-ignore
    const yx = [
      0.1, 0.2, 338.8, 337.4, 118.1, 118.2, 888.0, 884.6, 9.2, 10.1, 228.1, 226.5, 668.5, 666.3,
      998.5, 996.3, 449.1, 448.6, 778.9, 777.0, 559.2, 558.2, 0.3, 0.4, 0.1, 0.6, 778.1, 775.5,
      668.8, 666.9, 339.3, 338.0, 448.9, 447.5, 10.8, 11.6, 557.7, 556.0, 228.3, 228.1, 998.0,
      995.8, 888.8, 887.6, 119.6, 120.2, 0.3, 0.3, 0.6, 0.3, 557.6, 556.8, 339.3, 339.1, 888.0,
      887.2, 998.5, 999.0, 778.9, 779.0, 10.2, 11.1, 117.6, 118.3, 228.9, 229.2, 668.4, 669.1,
      449.2, 448.9, 0.2, 0.5,
    ];
    const points = yx.flatMap((y, i) => (i % 2 === 0 ? [{ y, x: yx[i + 1] ?? NaN, u: 1e-3 }] : []));
    const fit = fitLine(points);
    if (fit === null) throw new Error('no fit');
    const digits = (value: number, certified: number): number =>
      -Math.log10(Math.abs(value / certified - 1));
    expect(digits(fit.intercept, -0.262323073774029)).toBeGreaterThan(10);
    expect(digits(fit.slope, 1.00211681802045)).toBeGreaterThan(12);
    expect(digits(fit.interceptUncertainty, 0.232818234301152)).toBeGreaterThan(10);
    expect(digits(fit.slopeUncertainty, 0.429796848199937e-3)).toBeGreaterThan(10);
    expect(digits((fit.birgeRatio ?? 0) * 1e-3, 0.884796396144373)).toBeGreaterThan(10);
  });
});

describe('an I²C current and power monitor', () => {
  const monitor = { shuntTolerance: 0, range_mV: 40, gainTolerance: 0 } as const;

  it('register results of its data sheet: 2000 steps at 2 mΩ are 10 A (from memory)', () => {
    const current = monitorCurrentChannel({ ...monitor, shunt_Ohm: 0.002 });
    expect(2000 * MONITOR_PARTS * current.scale).toBeCloseTo(10, 12);
    const voltage = monitorVoltageChannel({ ...monitor, shunt_Ohm: 0.002 });
    expect(2995 * MONITOR_PARTS * voltage.scale).toBeCloseTo(11.98, 12);
  });

  it('±40 mV and ±320 mV at 0.1 Ω are 400 mA in 0.1 mA and 3.2 A in 0.8 mA', () => {
    // The register's step is 10 µV in every range (data sheet SBOS448); 12 bits of ±320 mV are
    // steps of 80 µV, 0.8 mA, as public descriptions of boards with that shunt state.
    const narrow = monitorCurrentChannel({ ...monitor, shunt_Ohm: 0.1 });
    const wide = monitorCurrentChannel({ ...monitor, shunt_Ohm: 0.1, range_mV: 320 });
    expect([narrow.range, narrow.step]).toEqual([
      expect.closeTo(0.4, 12),
      expect.closeTo(0.0001, 12),
    ]);
    expect([wide.range, wide.step]).toEqual([
      expect.closeTo(3.2, 12),
      expect.closeTo(0.0008, 12),
    ]);
    expect(wide.scale).toBe(narrow.scale);
  });
});
