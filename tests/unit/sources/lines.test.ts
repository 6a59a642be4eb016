import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Input } from '#core/inputs.ts';
import { createLineReader } from '../../../server/sources/lines.ts';

function bytes(text: string): Uint8Array {
  return new TextEncoder().encode(text);
}

function linesOf(inputs: readonly Input[]): string[] {
  return inputs.flatMap((input) => (input.kind === 'line' ? [input.text] : []));
}

describe('line reader', () => {
  it('tells lines before push returns, with the arrival time of the chunk that ended them', () => {
    const told: Input[] = [];
    const reader = createLineReader((input) => told.push(input));
    reader.push(bytes('1,2\n3,'), 0.5);
    expect(told).toEqual([{ kind: 'line', at_s: 0.5, text: '1,2' }]);
    reader.push(bytes('4\r\n5,6\r'), 0.75);
    expect(told.slice(1)).toEqual([
      { kind: 'line', at_s: 0.75, text: '3,4' },
      { kind: 'line', at_s: 0.75, text: '5,6' },
    ]);
  });

  it('tells thousands of lines of one chunk in order and at once', () => {
    const told: Input[] = [];
    const reader = createLineReader((input) => told.push(input));
    const lines = Array.from({ length: 5000 }, (_, index) => `${index},4.2`);
    reader.push(bytes(`${lines.join('\n')}\n`), 1);
    expect(linesOf(told)).toEqual(lines);
  });

  it('tells what the guard dropped, after the lines of the same chunk', () => {
    const told: Input[] = [];
    const reader = createLineReader((input) => told.push(input));
    reader.push(bytes(`1,2\n${'x'.repeat(300)}\n3\u0000,4\n5,6\n`), 2);
    expect(told).toEqual([
      { kind: 'line', at_s: 2, text: '1,2' },
      { kind: 'line', at_s: 2, text: '5,6' },
      { kind: 'dropped', at_s: 2, fault: 'tooLong', count: 1 },
      { kind: 'dropped', at_s: 2, fault: 'malformed', count: 1 },
    ]);
  });

  it('hands nothing on of ten million bytes without a line end', () => {
    const told: Input[] = [];
    const reader = createLineReader((input) => told.push(input));
    const chunk = new Uint8Array(100_000).fill(0x37);
    for (let i = 0; i < 100; i += 1) reader.push(chunk, i);
    expect(told).toEqual([{ kind: 'dropped', at_s: 0, fault: 'tooLong', count: 1 }]);
    reader.push(bytes('\n1,2\n'), 100);
    expect(linesOf(told)).toEqual(['1,2']);
  });

  it('gives the same lines however the bytes are cut into chunks', () => {
    const piece = fc.oneof(
      fc.constantFrom('\n', '\r', '\r\n', '1.25', ',', '\t', ' ', 'voltage_V', '\u0007', 'µ'),
      fc.string({ unit: 'binary', maxLength: 20 }),
      fc.constant('9'.repeat(200)),
    );
    fc.assert(
      fc.property(fc.array(piece), fc.array(fc.nat({ max: 40 })), (pieces, cuts) => {
        const all = bytes(pieces.join(''));
        const whole: Input[] = [];
        createLineReader((input) => whole.push(input)).push(all, 0);
        const cut: Input[] = [];
        const reader = createLineReader((input) => cut.push(input));
        let from = 0;
        for (const size of [...cuts, all.length]) {
          reader.push(all.subarray(from, from + size), 0);
          from += size;
        }
        expect(linesOf(cut)).toEqual(linesOf(whole));
        for (const line of linesOf(cut)) expect(line).toMatch(/^[\t -~]{1,256}$/);
      }),
    );
  });
});
