import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createRowReader, EndlessRow, splitRow } from '#core/csv-rows.ts';

function rowsOf(text: string, limit = 1000) {
  const reader = createRowReader(limit);
  return [...reader.push(text), ...reader.end()];
}
const fieldsOf = (text: string): (string[] | null)[] => rowsOf(text).map((row) => splitRow(row.text, ','));

// The examples of RFC 4180 (2005), section 2, rules 1 to 7, as they stand there.
describe('the examples of RFC 4180', () => {
  it('rules 1 and 2: rows end in a line break, the last may lack it', () => {
    const both = [['aaa', 'bbb', 'ccc'], ['zzz', 'yyy', 'xxx']];
    expect(fieldsOf('aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n')).toEqual(both);
    expect(fieldsOf('aaa,bbb,ccc\r\nzzz,yyy,xxx')).toEqual(both);
  });
  it('rule 5: fields may be quoted', () => {
    expect(fieldsOf('"aaa","bbb","ccc"\r\nzzz,yyy,xxx')).toEqual([['aaa', 'bbb', 'ccc'], ['zzz', 'yyy', 'xxx']]);
  });
  it('rule 6: quoted fields may hold line breaks', () => {
    expect(fieldsOf('"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx')).toEqual([['aaa', 'b\nbb', 'ccc'], ['zzz', 'yyy', 'xxx']]);
  });
  it('rule 7: a quote within quotes is doubled', () => {
    expect(fieldsOf('"aaa","b""bb","ccc"')).toEqual([['aaa', 'b"bb', 'ccc']]);
  });
});

describe('rows', () => {
  it('know the line they begin on, with any line end, empty lines passed over', () => {
    const rows = rowsOf('a\r\n"b\n\nb"\r\rc\nd');
    expect(rows).toEqual([
      { line: 1, text: 'a' },
      { line: 2, text: '"b\n\nb"' },
      { line: 6, text: 'c' },
      { line: 7, text: 'd' },
    ]);
  });

  it('take a quote within an unquoted field as it stands', () => {
    expect(fieldsOf('5" fan,2\n3,4')).toEqual([['5" fan', '2'], ['3', '4']]);
  });

  it('that never end are refused with the line they begin on, wherever the limit is met', () => {
    const open = `a,b\n1,"2\n${'3,4\n'.repeat(400)}`;
    expect(() => rowsOf(open)).toThrow(new EndlessRow(2));
    expect(() => rowsOf('a\n"b')).toThrow(new EndlessRow(2));
    expect(() => rowsOf(`a\n${'7'.repeat(1001)}`)).toThrow(new EndlessRow(2));
  });

  it('that are too long are passed over where that is wanted, unless a quote is open', () => {
    const long = '7'.repeat(1001);
    const text = `a,b\n1,2\n${long}\r\n3,4\n${long}${long}\r5,6`;
    for (const size of [1, 7, 900, text.length]) {
      const told: number[] = [];
      const reader = createRowReader(1000, (line) => told.push(line));
      const rows = Array.from({ length: Math.ceil(text.length / size) }, (_, i) => text.slice(i * size, (i + 1) * size))
        .flatMap((piece) => reader.push(piece))
        .concat(reader.end());
      const whole = [{ line: 1, text: 'a,b' }, { line: 2, text: '1,2' }, { line: 4, text: '3,4' }, { line: 6, text: '5,6' }];
      expect([told, rows], `${size} at a time`).toEqual([[3, 5], whole]);
    }
    for (const row of [`"b${long}\n`, `1,"2\n${long}",3\n`]) {
      const reader = createRowReader(1000, () => undefined);
      expect(() => reader.push(`a\n${row}`)).toThrow(new EndlessRow(2));
    }
  });

  it('come out as they were put in, however the text is cut', () => {
    const field = fc.string({ unit: fc.constantFrom('a', '1', '"', ',', '\n', ' ', 'µ') });
    const table = fc.array(fc.array(field, { minLength: 2, maxLength: 5 }), { minLength: 1, maxLength: 8 });
    fc.assert(
      fc.property(table, fc.array(fc.nat({ max: 9 })), fc.constantFrom('\n', '\r\n'), (rows, cuts, end) => {
        const text = rows.map((row) => row.map(quote).join(',')).join(end);
        const reader = createRowReader(100_000);
        let from = 0;
        const read = [...cuts, text.length].flatMap((size) => {
          const piece = text.slice(from, from + size);
          from += size;
          return reader.push(piece);
        });
        const all = [...read, ...reader.end()];
        expect(all.map((row) => splitRow(row.text, ','))).toEqual(rows);
        expect(all).toEqual(rowsOf(text, 100_000));
      }),
    );
  });
});

/** RFC 4180, section 2, rules 5 to 7. */
function quote(field: string): string {
  return `"${field.replaceAll('"', '""')}"`;
}
