import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  decimalAt, expandedUncertainty, firstPlace, placeOf, prefixFor, scaled, writeMeasured,
} from '#core/metrology/format.ts';

const PLAIN = { symbol: '', exponent: 0 } as const;
const MILLI = { symbol: 'm', exponent: -3 } as const;
const MANY = 1e9;
/** Standard uncertainty whose expanded uncertainty (95 %) is U, for many degrees of freedom. */
const forU = (U: number): number => U / 1.959963984540054;

describe('placeOf', () => {
  // JCGM 100:2008, 7.2.6: u(y) = 27 mΩ goes with 10.058 Ω; 28.05 kHz is rounded to 28 kHz.
  it('keeps two digits of the examples in the GUM', () => {
    expect(decimalAt(10.05762, placeOf(0.027, 'full'))).toBe('10.058');
    expect(decimalAt(28.05, placeOf(28.05, 'full'))).toBe('28');
  });
  // JCGM 100:2008, 7.2.2: m_S = 100.021 47 g with u_c = 0.35 mg.
  it('agrees with the mass example in the GUM', () => {
    expect(decimalAt(100.02147, placeOf(0.00035, 'full'))).toBe('100.02147');
  });
  it.each([
    [0.31, -1, '0.3'],
    [3.2, 0, '3'],
    [0.0284, -3, '0.028'],
    [1.04, -1, '1.0'],
    [2.94, -1, '2.9'],
    [2.96, 0, '3'],
    [0.94, -1, '0.9'],
    [9.6, 0, '10'],
    [0.096, -2, '0.10'],
    [27, 0, '27'],
    [47, 1, '50'],
    [960, 2, '1000'],
  ])('short: %d is given to the place %d, as %s', (uncertainty, place, text) => {
    expect(placeOf(uncertainty)).toBe(place);
    expect(decimalAt(uncertainty, place)).toBe(text);
  });
  it.each([
    [3.24, -1, '3.2'],
    [9.96, 0, '10'],
    [0.0999, -2, '0.10'],
  ])('full: %d is given to the place %d, as %s', (uncertainty, place, text) => {
    expect(placeOf(uncertainty, 'full')).toBe(place);
    expect(decimalAt(uncertainty, place)).toBe(text);
  });
  it('leaves one or two significant digits of any uncertainty', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-9, max: 1e9, noNaN: true }), (uncertainty) => {
        const kept = uncertainty / 10 ** placeOf(uncertainty);
        expect(kept).toBeGreaterThanOrEqual(2.94);
        expect(kept).toBeLessThan(29.6);
      }),
    );
  });
});

describe('firstPlace', () => {
  it.each([
    [1, 0], [999.9999999, 2], [1000, 3], [0.001, -3], [-42, 1], [0.00099999999, -4],
  ])('of %d is %d', (value, place) => {
    expect(firstPlace(value)).toBe(place);
  });
});

describe('decimalAt', () => {
  it.each([
    [243.4, 0, '243'],
    [243.4, 1, '240'],
    [2.305, -1, '2.3'],
    [-0.04, -1, '0.0'],
    [-0.06, -1, '−0.1'],
    [-300, 2, '−300'],
    [0, -2, '0.00'],
  ])('%d to the place %d is %s', (value, place, text) => {
    expect(decimalAt(value, place)).toBe(text);
  });
});

describe('prefixFor', () => {
  it.each([
    [0.259, 'm'], [0.9999, 'm'], [1, ''], [1200, 'k'], [0.0004, 'µ'], [0, 'µ'], [-0.2, 'm'],
  ])('of %d is %s', (largest, symbol) => {
    expect(prefixFor(largest).symbol).toBe(symbol);
  });
  it('scales without spoiling digits', () => {
    expect(scaled(0.243, -3)).toBe(243);
    expect(scaled(1500, 3)).toBe(1.5);
  });
});

describe('expandedUncertainty', () => {
  // JCGM 100:2008, H.1.6: u_c = 32 nm with 16 degrees of freedom; there t_99 = 2.92 gives 93 nm;
  // Table G.2 has t_95(16) = 2.12.
  it('uses the coverage factor for the degrees of freedom', () => {
    const U = expandedUncertainty({ standardUncertainty: 32, degreesOfFreedom: 16 });
    expect(U?.toFixed(0)).toBe('68');
  });
  it.each([
    [0, 10], [NaN, 10], [1, 0], [1, NaN], [-1, 4],
  ])('is not known for u = %d with %d degrees of freedom', (standardUncertainty, degreesOfFreedom) => {
    expect(expandedUncertainty({ standardUncertainty, degreesOfFreedom })).toBeNull();
  });
});

describe('writeMeasured', () => {
  it('gives value and uncertainty to the same place', () => {
    const measured = { value: 0.24317, standardUncertainty: forU(0.0032), degreesOfFreedom: MANY };
    expect(writeMeasured(measured, { unit: 'W', prefix: MILLI })).toEqual({
      value: '243', uncertainty: '3', unit: 'mW',
    });
    expect(writeMeasured(measured, { unit: 'W', prefix: MILLI, digits: 'full' })).toEqual({
      value: '243.2', uncertainty: '3.2', unit: 'mW',
    });
  });
  it('says so when the uncertainty is not known', () => {
    const measured = { value: 2.3149, standardUncertainty: 0, degreesOfFreedom: 0 };
    expect(writeMeasured(measured, { unit: 'V', prefix: PLAIN })).toEqual({
      value: '2.31', uncertainty: '–', unit: 'V',
    });
  });
  it('shows no digit of the value below the last digit of the uncertainty', () => {
    const value = fc.double({ min: -1e3, max: 1e3, noNaN: true });
    const u = fc.double({ min: 1e-6, max: 1e3, noNaN: true });
    fc.assert(
      fc.property(value, u, (v, standardUncertainty) => {
        const measured = { value: v, standardUncertainty, degreesOfFreedom: 8 };
        const written = writeMeasured(measured, { unit: 'W', prefix: PLAIN });
        const decimals = (text: string): number => text.split('.')[1]?.length ?? 0;
        expect(decimals(written.value)).toBe(decimals(written.uncertainty));
      }),
    );
  });
});
