import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createRowReader, splitRow } from '#core/csv-rows.ts';
import { csvRow } from '../../../server/carry/csv-text.ts';

const text = fc.string({ unit: 'binary', maxLength: 12 }).filter((one) => !one.includes('\0'));

describe('a row of CSV', () => {
  it('quotes as RFC 4180 section 2 says', () => {
    // Rule 7 has this very field.
    expect(csvRow(['aaa', 'b"bb', 'c,c', 'd\r\nd', null, -1.5, true])).toBe(
      'aaa,"b""bb","c,c","d\r\nd",,-1.5,true\r\n',
    );
  });

  // OWASP, "CSV Injection": fields beginning with these are taken for formulas.
  it.each(['=1+1', '+1', '-1', '@SUM(A1)', '\tx', '\rx'])('disarms %j', (formula) => {
    const [field = ''] = splitRow(csvRow([formula]).slice(0, -2), ',') ?? [];
    expect(field).toBe(`'${formula}`);
  });

  it('is read back as it was by the reader of recordings, but for what is disarmed', () => {
    fc.assert(
      fc.property(fc.array(text, { minLength: 2, maxLength: 5 }), (cells) => {
        const reader = createRowReader(10_000);
        const rows = [...reader.push(csvRow(cells)), ...reader.end()];
        expect(rows).toHaveLength(1);
        const fields = splitRow(rows[0]?.text ?? '', ',') ?? [];
        // That reader takes every kind of line end for one.
        const given = cells.map((cell) => cell.replace(/\r\n?/g, '\n'));
        const isDisarmed = (cell: string): boolean => /^[=+\-@\t\r]/.test(cell);
        const wanted = given.map((cell, at) => (isDisarmed(cells[at] ?? '') ? `'${cell}` : cell));
        expect(fields).toEqual(wanted);
      }),
    );
  });

  it('holds every number to the last bit', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
        expect(Number(csvRow([value]).trimEnd())).toBe(value === 0 ? 0 : value);
      }),
    );
  });
});
