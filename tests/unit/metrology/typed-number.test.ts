import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NotUnderstood, readTyped, type TypedUnits } from '#core/metrology/typed-number.ts';
import { enByHand } from '../../../web/words/by-hand/en.ts';
import { faultWords } from '../../../web/words/by-hand-words.ts';

const CURRENT: TypedUnits = {
  usual: 'mA',
  known: {
    A: { multiplier: 1, divisor: 1 },
    mA: { multiplier: 1, divisor: 1e3 },
    µA: { multiplier: 1, divisor: 1e6 },
  },
};
const NUMBER: TypedUnits = { usual: '', known: { '': { multiplier: 1, divisor: 1 } } };

const read = (text: string) => readTyped(text, CURRENT, '43.1');
const number = (text: string) => readTyped(text, NUMBER, '2.31');

/** What is asked back, in English. */
function asked(read: () => unknown): string {
  try {
    read();
  } catch (error) {
    if (error instanceof NotUnderstood) return faultWords(enByHand.keyed.fault, error.fault);
    throw error;
  }
  return '';
}

describe('a typed number', () => {
  it.each([
    ['2.31', 2.31, 0.01],
    ['2,31', 2.31, 0.01],
    [' 2.310 ', 2.31, 0.001],
    ['.5', 0.5, 0.1],
    ['0,231', 0.231, 0.001],
    ['1.234', 1.234, 0.001],
    ['1234,5', 1234.5, 0.1],
    ['-7', -7, 1],
    ['−7', -7, 1],
    ['+7', 7, 1],
  ])('%s', (text, value, step) => {
    expect(number(text)).toEqual({ value, step: expect.closeTo(step, 12) as number });
  });

  it.each([
    ['43.1', 0.0431, 1e-4],
    ['43,1mA', 0.0431, 1e-4],
    ['0.0431 A', 0.0431, 1e-4],
    ['431 µA', 0.000431, 1e-6],
    ['431 μA', 0.000431, 1e-6],
    ['431 uA', 0.000431, 1e-6],
  ])('with a unit: %s', (text, value, step) => {
    expect(read(text)).toEqual({
      value: expect.closeTo(value, 15) as number,
      step: expect.closeTo(step, 15) as number,
    });
  });

  it.each([
    ['1,234', '“1,234” could be 1.234 or 1234. Type it with a point: 1.234, or without: 1234.'],
    ['', 'Type a number, for instance 43.1.'],
    ['1.234,5', '“1.234,5” has more than one decimal sign. Leave one.'],
    ['1,234,567', '“1,234,567” has more than one decimal sign. Leave one.'],
    ['2.', '“2.” is not a number. Type one like 43.1.'],
    ['2 310', '“2 310” is not a number. Type one like 43.1.'],
    ['abc', '“abc” is not a number. Type one like 43.1.'],
    ['43.1 MA', '“MA” is not known here. Use A or mA or µA.'],
    ['2e3', '“e3” is not known here. Use A or mA or µA.'],
    ['O.L', 'OL means that the range is too small. Set the meter to a larger one and read again.'],
    ['0L', 'OL means that the range is too small. Set the meter to a larger one and read again.'],
  ])('asks back: “%s”', (text, message) => expect(asked(() => read(text))).toBe(message));

  it('takes no unit where none is wanted', () =>
    expect(asked(() => number('2 V'))).toBe('Leave “V” out: a number alone is wanted.'));

  it('reads what any number is written as, with point or comma', () => {
    const decimals = fc.tuple(fc.integer({ min: -99_999, max: 99_999 }), fc.integer({ min: 0, max: 2 }));
    fc.assert(
      fc.property(decimals, fc.boolean(), ([digits, places], comma) => {
        const text = (digits / 10 ** places).toFixed(places);
        const typed = comma ? text.replace('.', ',') : text;
        expect(number(typed).value).toBe(Number(text));
        expect(number(typed).step).toBeCloseTo(10 ** -places, 12);
      }),
    );
  });

  it('answers any text with a number or a sentence', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.stringMatching(/^[-+.,\d\smA]{0,12}$/)), (text) => {
        try {
          expect(Number.isFinite(read(text).value)).toBe(true);
        } catch (error) {
          expect(error).toBeInstanceOf(NotUnderstood);
        }
      }),
    );
  });
});
