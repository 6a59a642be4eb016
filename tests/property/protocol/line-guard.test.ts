import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createLineGuard, LINE_LIMIT, type DropReason } from '#protocol/line-guard.ts';

/** Bytes as ports give them: mostly text and line ends, some garbage, some lines without end. */
const stretch = fc.oneof(
  { weight: 4, arbitrary: fc.string({ unit: 'grapheme-ascii' }).map((text) => Buffer.from(text)) },
  {
    weight: 3,
    arbitrary: fc.constantFrom('\n', '\r', '\r\n', '\n\n', '\t').map((end) => Buffer.from(end)),
  },
  { weight: 1, arbitrary: fc.uint8Array({ maxLength: 8 }).map((bytes) => Buffer.from(bytes)) },
  {
    weight: 1,
    arbitrary: fc
      .integer({ min: LINE_LIMIT - 2, max: 3 * LINE_LIMIT })
      .map((count) => Buffer.alloc(count, 'x')),
  },
);
const bytes = fc.array(stretch, { maxLength: 30 }).map((parts) => Buffer.concat(parts));
const cuts = fc.array(fc.nat({ max: 5000 }), { maxLength: 40 });

interface Outcome {
  readonly passed: string;
  readonly tooLong: number;
  readonly malformed: number;
}

function guardInChunks(input: Buffer, at: readonly number[]): Outcome {
  const guard = createLineGuard();
  const dropped: Record<DropReason, number> = { tooLong: 0, malformed: 0 };
  const borders = [
    0,
    ...at.map((cut) => Math.min(cut, input.length)).sort((a, b) => a - b),
    input.length,
  ];
  let passed = '';
  for (const [index, end] of borders.slice(1).entries()) {
    passed += Buffer.from(guard.push(input.subarray(borders[index], end))).toString('latin1');
    for (const { fault, count } of guard.takeDropped()) dropped[fault] += count;
  }
  return { passed, ...dropped };
}

/** The same by its definition: the whole input at once, one line at a time. */
function guardByDefinition(input: Buffer): Outcome {
  const lines = input.toString('latin1').split(/[\r\n]/);
  const faultOf = (line: string): DropReason | null => {
    const bad = line.search(/[^\t -~]/);
    if (bad >= 0 && bad <= LINE_LIMIT) return 'malformed';
    return line.length > LINE_LIMIT ? 'tooLong' : null;
  };
  const whole = lines.slice(0, -1).filter((line) => line !== '' && faultOf(line) === null);
  const count = (reason: DropReason) => lines.filter((line) => faultOf(line) === reason).length;
  return {
    passed: whole.map((line) => `${line}\n`).join(''),
    tooLong: count('tooLong'),
    malformed: count('malformed'),
  };
}

describe('the line guard', () => {
  it('gives what its definition says, however the bytes are cut', () => {
    fc.assert(
      fc.property(bytes, cuts, (input, at) => {
        expect(guardInChunks(input, at)).toEqual(guardByDefinition(input));
      }),
      { numRuns: 1000 },
    );
  });

  it('gives the same byte by byte', () => {
    fc.assert(
      fc.property(bytes, (input) => {
        expect(guardInChunks(input, Array.from(input.keys()))).toEqual(guardInChunks(input, []));
      }),
    );
  });

  it('takes 10 MB without a line end, counts them once, and goes on', () => {
    const guard = createLineGuard();
    const endless = new Uint8Array(65_536).fill(0x31);
    for (let sent = 0; sent < 10_000_000; sent += endless.length) {
      expect(guard.push(endless)).toHaveLength(0);
    }
    expect(guard.takeDropped()).toEqual([{ fault: 'tooLong', count: 1 }]);
    expect(Buffer.from(guard.push(Buffer.from('\n1,2\n'))).toString()).toBe('1,2\n');
  });

  it('does not hand out memory that it writes to again', () => {
    const guard = createLineGuard();
    const first = guard.push(Buffer.from('first\nsec'));
    guard.push(Buffer.from('ond\nthird\n'));
    expect(Buffer.from(first).toString()).toBe('first\n');
  });
});
