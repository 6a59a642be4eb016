/** The worth of a count against exact fractions of whole numbers, and as the text of a setting. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decimalText, scaleText } from '#core/instrument/decimal-text.ts';
import { dividerChannel } from '#core/instrument/divider.ts';
import { fitLine } from '#core/instrument/line-fit.ts';
import { shuntChannel } from '#core/instrument/shunt.ts';
import { parseNumber } from '#protocol/number.ts';

/** A fraction of whole numbers; nothing is ever rounded. */
interface Fraction {
  readonly over: bigint;
  readonly under: bigint;
}

/** Is |value − exact| ≤ exact · 10^-digits? The double is taken as the fraction that it is. */
function agrees(value: number, { over, under }: Fraction, digits: number): boolean {
  let denominator = 1n;
  let numerator = value;
  while (!Number.isInteger(numerator)) {
    numerator *= 2;
    denominator *= 2n;
  }
  const difference = BigInt(numerator) * under - over * denominator;
  const size = difference < 0n ? -difference : difference;
  return size * 10n ** BigInt(digits) <= over * denominator;
}

const ohms = fc.integer({ min: 1, max: 1_000_000 });
const bits = fc.integer({ min: 8, max: 16 });
const parts = fc.integer({ min: 1, max: 4096 });
const reference_mV = fc.integer({ min: 500, max: 5500 });

describe('the worth of a count', () => {
  it('of a divider is V_ref (R1 + R2) / (R2 · 2^bits · parts), to 14 digits', () => {
    fc.assert(
      fc.property(ohms, ohms, bits, parts, reference_mV, (upper, lower, bitCount, part, mV) => {
        const { scale } = dividerChannel({
          upper_Ohm: upper,
          upperTolerance: 0,
          lower_Ohm: lower,
          lowerTolerance: 0,
          converter: {
            reference_V: mV / 1000,
            referenceTolerance: 0,
            bits: bitCount,
            partsPerStep: part,
          },
        });
        const exact = {
          over: BigInt(mV) * BigInt(upper + lower),
          under: 1000n * BigInt(lower) * 2n ** BigInt(bitCount) * BigInt(part),
        };
        expect(agrees(scale, exact, 14)).toBe(true);
      }),
    );
  });

  it('of a shunt is V_ref / (G · R · 2^bits · parts), to 14 digits', () => {
    const gains = fc.integer({ min: 1, max: 1000 });
    fc.assert(
      fc.property(ohms, gains, bits, parts, reference_mV, (milliOhm, gain, bitCount, part, mV) => {
        const { scale } = shuntChannel({
          resistance_Ohm: milliOhm / 1000,
          tolerance: 0,
          amplifierGain: gain,
          amplifierGainTolerance: 0,
          amplifierOffset_V: 0,
          amplifierMargin_V: 0,
          converter: {
            reference_V: mV / 1000,
            referenceTolerance: 0,
            bits: bitCount,
            partsPerStep: part,
          },
        });
        const exact = {
          over: BigInt(mV),
          under: BigInt(gain) * BigInt(milliOhm) * 2n ** BigInt(bitCount) * BigInt(part),
        };
        expect(agrees(scale, exact, 14)).toBe(true);
      }),
    );
  });
});

describe('numbers for the sketch', () => {
  const worth = fc.double({ min: 1e-9, max: 1e5, noNaN: true });

  it('read by our own grammar they are within half of their last digit', () => {
    fc.assert(
      fc.property(worth, (value) => {
        const text = scaleText(value);
        expect(text).toMatch(/^\d+(\.\d*[1-9])?$/);
        expect(Math.abs((parseNumber(text) ?? Number.NaN) / value - 1)).toBeLessThan(5.001e-8);
      }),
    );
  });

  it('are the number itself where it is short', () => {
    // Arithmetic by hand: 5 V / 1024 in mV, and halves of it.
    expect(scaleText((5 / 1024) * 1000)).toBe('4.8828125');
    expect(scaleText(0.1)).toBe('0.1');
    expect(scaleText(1200)).toBe('1200');
    expect(decimalText(0, 2)).toBe('0');
    expect(decimalText(0.0996, 2)).toBe('0.1');
    expect(decimalText(-12.34, 3)).toBe('-12.3');
  });
});

describe('a fitted line', () => {
  const coordinate = fc.integer({ min: -1000, max: 1000 });
  const points = fc
    .array(fc.record({ x: coordinate, y: coordinate }), { minLength: 3, maxLength: 8 })
    .filter((all) => new Set(all.map(({ x }) => x)).size >= 2);

  it('takes a point of half the uncertainty as four points', () => {
    fc.assert(
      fc.property(points, (all) => {
        const [first, ...rest] = all.map((point) => ({ ...point, u: 10_000 }));
        if (first === undefined) return;
        const heavy = fitLine([{ ...first, u: 5_000 }, ...rest]);
        const repeated = fitLine([first, first, first, first, ...rest]);
        if (heavy === null || repeated === null) throw new Error('no fit');
        expect(heavy.slope).toBeCloseTo(repeated.slope, 9);
        expect(heavy.intercept).toBeCloseTo(repeated.intercept, 6);
        expect(heavy.slopeUncertainty / repeated.slopeUncertainty).toBeCloseTo(1, 9);
        expect(heavy.interceptUncertainty / repeated.interceptUncertainty).toBeCloseTo(1, 9);
      }),
    );
  });

  it('is not made better by shifting where x begins', () => {
    fc.assert(
      fc.property(points, coordinate, (all, shift) => {
        const here = fitLine(all.map((point) => ({ ...point, u: 1 })));
        const there = fitLine(all.map(({ x, y }) => ({ x: x + shift, y, u: 1 })));
        if (here === null || there === null) throw new Error('no fit');
        expect(there.slope).toBeCloseTo(here.slope, 8);
        expect(there.slopeUncertainty / here.slopeUncertainty).toBeCloseTo(1, 8);
      }),
    );
  });
});
