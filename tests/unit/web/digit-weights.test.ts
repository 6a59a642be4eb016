import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decimalAt } from '#core/metrology/format.ts';
import { stillCharacters } from '../../../web/draw/digit-weights.ts';

const heavy = (text: string, recent: number[], place: number, settled = false): string =>
  stillCharacters(text, recent, { place, settled })
    .map((still) => (still ? '1' : '0'))
    .join('');

describe('stillCharacters', () => {
  it('makes the digits heavy that the newest quarter leaves unchanged', () => {
    expect(heavy('243', [241.2, 243.3, 244.4], 0)).toBe('110');
    expect(heavy('243', [231, 243, 244], 0)).toBe('100');
    expect(heavy('243', [143, 243], 0)).toBe('000');
  });
  it('turns the last digit heavy only at settled', () => {
    expect(heavy('243', [243.1, 242.9], 0)).toBe('110');
    expect(heavy('243', [243.1, 242.9], 0, true)).toBe('111');
    expect(heavy('243', [243.1, 241.9], 0, true)).toBe('110');
  });
  it('counts the point with the digits before it', () => {
    expect(heavy('2.31', [2.312, 2.288], -2)).toBe('1100');
  });
  it('never trusts a number of another length', () => {
    expect(heavy('100', [99.2, 100.3], 0)).toBe('000');
    expect(heavy('0.4', [0.41, -0.4], -1)).toBe('000');
  });
  it('leaves filling zeros with the digit before them', () => {
    expect(heavy('240', [241, 243, 238], 1)).toBe('100');
    expect(heavy('240', [241, 243, 238], 1, true)).toBe('111');
  });
  it('is hairline when nothing recent is known', () => {
    expect(heavy('243', [], 0, true)).toBe('000');
  });
  it('keeps a heavy digit the same for every value it was judged by', () => {
    const values = fc.array(fc.double({ min: -500, max: 500, noNaN: true }), {
      minLength: 1,
      maxLength: 6,
    });
    fc.assert(
      fc.property(
        values,
        fc.integer({ min: -2, max: 1 }),
        fc.boolean(),
        (recent, place, settled) => {
          const text = decimalAt(recent.at(-1) ?? 0, place);
          const still = stillCharacters(text, recent, { place, settled });
          recent.forEach((value) => {
            const other = decimalAt(value, place);
            still.forEach((isStill, i) => isStill && expect(other[i]).toBe(text[i]));
          });
        },
      ),
    );
  });
});
