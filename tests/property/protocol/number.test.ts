import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseNumber, readNumber } from '#protocol/number.ts';

/** The grammar as written down in README.md, in another form than the reader has it. */
const GRAMMAR = /^[-+]?(?:\d+(?:\.\d+)?|\.\d+)(?:[eE][-+]?\d+)?$/;

const digits = fc.string({ unit: fc.constantFrom(...'0123456789'), minLength: 1, maxLength: 25 });
const sign = fc.constantFrom('', '-', '+');
const mantissa = fc.oneof(
  digits,
  fc.tuple(digits, digits).map(([whole, part]) => `${whole}.${part}`),
  digits.map((part) => `.${part}`),
);
const exponent = fc.oneof(
  fc.constant(''),
  fc
    .tuple(fc.constantFrom('e', 'E'), sign, fc.integer({ min: 0, max: 400 }))
    .map(([letter, minus, value]) => `${letter}${minus}${value}`),
);
const inGrammar = fc.tuple(sign, mantissa, exponent).map((parts) => parts.join(''));
/** Numbers as boards and programs print them. */
const printed = fc.oneof(
  fc.double({ noNaN: true, noDefaultInfinity: true }).map(String),
  fc
    .tuple(fc.integer({ min: -(10 ** 9), max: 10 ** 9 }), fc.integer({ min: 0, max: 9 }))
    .map(([value, decimals]) => (value / 10 ** decimals).toFixed(decimals)),
  fc.double({ min: -1e6, max: 1e6, noNaN: true }).map((value) => value.toPrecision(17)),
);

function read(text: string): { end: number; value: number } {
  const into = new Float64Array(1);
  const end = readNumber(text, 0, into, 0);
  return { end, value: into[0] as number };
}

describe('numbers', () => {
  it('are those of Number(), to the last bit, for every text of the grammar', () => {
    fc.assert(
      fc.property(fc.oneof(inGrammar, printed), (text) => {
        const { end, value } = read(text);
        expect(end).toBe(text.length);
        expect(Object.is(value, Number(text))).toBe(true);
      }),
      { numRuns: 20_000 },
    );
  });

  it('are none for every text outside it', () => {
    const nearly = fc.string({ unit: fc.constantFrom(...'0123456789.+-eE,x na'), maxLength: 12 });
    fc.assert(
      fc.property(fc.oneof(nearly, fc.string()), (text) => {
        expect(parseNumber(text) !== null).toBe(
          GRAMMAR.test(text) && Number.isFinite(Number(text)),
        );
      }),
      { numRuns: 20_000 },
    );
  });

  it('end where their last character ends, whatever follows', () => {
    fc.assert(
      fc.property(inGrammar, fc.constantFrom(',', ';', ' ', '\t', 'a', '$', ''), (text, after) => {
        expect(read(text + after)).toEqual(read(text));
      }),
    );
  });
});
