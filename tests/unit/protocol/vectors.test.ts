/**
 * The test vectors that every implementation of the grammar has to pass. Their checksums were made
 * with Python's binascii.crc_hqx, their numbers with Python's float().
 */
import { describe, expect, it } from 'vitest';
import boardLines from '#protocol/vectors/board-lines.json' with { type: 'json' };
import guard from '#protocol/vectors/guard.json' with { type: 'json' };
import hostLines from '#protocol/vectors/host-lines.json' with { type: 'json' };
import numbers from '#protocol/vectors/numbers.json' with { type: 'json' };
import plainLines from '#protocol/vectors/plain-lines.json' with { type: 'json' };
import { GRAMMAR_VERSION, type Frame, type Request } from '#protocol/frame.ts';
import { createLineGuard } from '#protocol/line-guard.ts';
import { parseNumber } from '#protocol/number.ts';
import { parseHeader, type Header, type Separator } from '#protocol/plain-header.ts';
import { NOT_NUMBERS, readFields } from '#protocol/plain-line.ts';
import { formatFrame, formatRequest, parseFrame, parseRequest } from '#protocol/stillmark-line.ts';

it('is for this version of the grammar', () => {
  for (const { vectors, grammar } of [boardLines, guard, hostLines, numbers, plainLines]) {
    expect({ vectors, grammar }).toEqual({ vectors: 1, grammar: GRAMMAR_VERSION });
  }
});

describe('lines of a board', () => {
  it.each(boardLines.good)('$line', ({ line, frame }) => {
    expect(parseFrame(line)).toEqual(frame);
    // Other spellings of a number, and what follows a foreign version, are not kept.
    expect(parseFrame(formatFrame(frame as Frame))).toEqual(frame);
  });

  it.each(boardLines.bad)('refuses $line', ({ line, fault }) => {
    expect(parseFrame(line)).toEqual({ kind: 'fault', fault });
  });

  it('are formatted as they stand there, where there is one spelling only', () => {
    const onlySpelling = [
      'sample',
      'opening',
      'identity',
      'pace',
      'button',
      'beat',
      'trouble',
      'answer',
    ];
    const lines = boardLines.good.filter(({ frame }) => onlySpelling.includes(frame.kind));
    expect(lines.map(({ frame }) => formatFrame(frame as Frame))).toEqual(
      lines.map(({ line }) => line),
    );
  });
});

describe('lines of the host', () => {
  it.each(hostLines.good)('$line', ({ line, request }) => {
    expect(parseRequest(line)).toEqual(request);
    expect(formatRequest(request as Request)).toBe(line);
  });

  it.each(hostLines.bad)('refuses $line', ({ line, fault }) => {
    expect(parseRequest(line)).toEqual({ kind: 'fault', fault });
  });
});

describe('numbers', () => {
  it.each(numbers.numbers)('$text', ({ text, value }) => {
    expect(parseNumber(text)).toBe(value);
  });

  it.each(numbers.refused)('refuses %s', (text) => {
    expect(parseNumber(text)).toBeNull();
    expect(readOne(text)).toBe('malformed');
  });

  it.each(numbers.missing)('reads "%s" as missing, never as a number', (text) => {
    expect(parseNumber(text)).toBeNull();
    expect(readOne(text)).toEqual([null]);
  });

  /** The text as the only field of a line, between tabs, which can't be part of a field. */
  function readOne(text: string): (number | null)[] | string {
    return readLineOf(1, text, '\t');
  }
});

describe('plain lines', () => {
  it.each(plainLines.headers)('header $line', ({ line, columns }) => {
    const roles = parseHeader(line)?.columns.map((column) =>
      column.role === 'quantity' ? column.quantity : column.role,
    );
    expect(roles ?? null).toEqual(columns);
  });

  it.each(plainLines.lines)('$line under $header', ({ header, line, ...expected }) => {
    const { columns, separator } = parseHeader(header) as Header;
    const isRead = columns.map(({ role }) => role !== 'ignored');
    const result = readLineOf(columns.length, line, separator as Separator, isRead);
    expect(result).toEqual('fault' in expected ? expected.fault : expected.values);
  });
});

function readLineOf(
  count: number,
  line: string,
  separator: Separator,
  isRead: readonly boolean[] = [true],
): (number | null)[] | string {
  const values = new Float64Array(count).fill(Number.NaN);
  const found = readFields(line, separator, Uint8Array.from(isRead, Number), values);
  if (found === NOT_NUMBERS) return 'malformed';
  if (found !== count) return 'fieldCount';
  return Array.from(values, (value) => (Number.isNaN(value) ? null : value));
}

describe('the line guard', () => {
  it.each(guard.cases)('$chunks', ({ chunks, lines, tooLong, malformed }) => {
    const lineGuard = createLineGuard();
    const passed = chunks.map((hex) => Buffer.from(lineGuard.push(Buffer.from(hex, 'hex'))));
    expect(Buffer.concat(passed).toString('latin1')).toBe(
      lines.map((line) => `${line}\n`).join(''),
    );
    expect(lineGuard.takeDropped()).toEqual(
      [
        { fault: 'tooLong', count: tooLong },
        { fault: 'malformed', count: malformed },
      ].filter(({ count }) => count > 0),
    );
    expect(lineGuard.takeDropped()).toEqual([]);
  });
});
