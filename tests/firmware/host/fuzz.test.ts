/**
 * Chance against two implementations of one grammar: the library that boards run and the TypeScript
 * that reads them have to agree on every case.
 */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import {
  ANSWERS,
  BUTTONS,
  MOST_CHANNELS,
  REQUEST_NAMES,
  TROUBLES,
  type Frame,
} from '#protocol/frame.ts';
import { freeText } from '#protocol/field.ts';
import { readNumber } from '#protocol/number.ts';
import { formatFrame, formatRequest, parseFrame } from '#protocol/stillmark-line.ts';
import { needsFirmwareTools } from '../../support/needs.ts';
import { answersOf, fields, hexadecimal, SEED, SEEDED } from './programs.ts';
import { requestsIn, sealed } from './request-reader.ts';

const CASES = 20_000;

function some<T>(arbitrary: fc.Arbitrary<T>, count = CASES): T[] {
  return fc.sample(arbitrary, { numRuns: count, seed: SEED });
}

// Numbers near the ends of their range and near powers of ten are where digits go wrong.
function whole(smallest: number, largest: number): fc.Arbitrary<number> {
  const corners = Array.from({ length: 10 }, (_, power) => 10 ** power)
    .flatMap((power) => [power - 1, power, -power, 1 - power])
    .map((value) => value + 0)
    .filter((value) => value >= smallest && value <= largest);
  const inside = fc.integer({ min: smallest, max: largest });
  return fc.oneof(inside, fc.constantFrom(smallest, largest, ...corners));
}

const u16 = whole(0, 2 ** 16 - 1);
const u32 = whole(0, 2 ** 32 - 1);
const i32 = whole(-(2 ** 31), 2 ** 31 - 1);
const period = whole(1, 2 ** 32 - 1);

function text(longest: number): fc.Arbitrary<string> {
  const printable = Array.from({ length: 95 }, (_, i) => String.fromCharCode(0x20 + i));
  const unit = fc.constantFrom(...printable.filter((character) => !'$*,'.includes(character)));
  return fc.string({ unit, minLength: 1, maxLength: longest });
}

/** In the length that the library keeps of a number's text. */
const decimal = fc
  .double({ noNaN: true, noDefaultInfinity: true })
  .map((value) => Number(value.toPrecision(6)) + 0)
  .filter((value) => String(value).length <= 15);
const uncertainty = fc.option(decimal.map(Math.abs));

const frame: fc.Arbitrary<Frame> = fc.oneof(
  fc.record({
    kind: fc.constant('sample' as const),
    sequence: u16,
    time: u32,
    counts: fc.array(fc.option(i32), { minLength: 1, maxLength: MOST_CHANNELS }),
  }),
  fc.record({
    kind: fc.constant('opening' as const),
    cause: fc.constantFrom('boot' as const, 'again' as const),
    timeUnit: fc.constant('us' as const),
    channelCount: whole(1, MOST_CHANNELS),
  }),
  fc.record({
    kind: fc.constant('identity' as const),
    maker: text(40),
    model: text(40),
    serial: text(40),
    firmware: text(40),
  }),
  fc.record({
    kind: fc.constant('channel' as const),
    number: whole(1, MOST_CHANNELS),
    quantity: text(13),
    unit: text(5),
    scale: decimal,
    zero: i32,
    gain: decimal,
    offset: decimal,
    gainUncertainty: uncertainty,
    offsetUncertainty: uncertainty,
  }),
  fc.record({
    kind: fc.constant('pace' as const),
    period_us: period,
    shortest_us: period,
    longest_us: period,
  }),
  fc.record({
    kind: fc.constant('button' as const),
    number: u16,
    time: u32,
    button: fc.constantFrom(...BUTTONS),
  }),
  fc.record({ kind: fc.constant('beat' as const), time: u32 }),
  fc.record({
    kind: fc.constant('trouble' as const),
    channel: whole(0, MOST_CHANNELS),
    trouble: fc.constantFrom(...TROUBLES),
  }),
  fc.record({
    kind: fc.constant('answer' as const),
    request: fc.constantFrom(...REQUEST_NAMES),
    result: fc.constantFrom(...ANSWERS),
  }),
);

const request = fc.oneof(
  fc.constant({ kind: 'identify' as const }),
  fc.record({ kind: fc.constant('pace' as const), period_us: period }),
  fc.record({ kind: fc.constant('zero' as const), channel: whole(1, MOST_CHANNELS) }),
);

/** Any printable character, but oftener these. */
function characters(...oftener: readonly string[]): fc.Arbitrary<string> {
  const any = fc.string({ unit: 'grapheme-ascii', minLength: 1, maxLength: 1 });
  return fc.oneof(any, fc.constantFrom(...oftener));
}

const anyText = fc.string({ unit: characters(',', '*', '\t'), maxLength: 60 });

/** A line of the host: good, sealed rightly around something else, or anything. */
const hostLine = fc.oneof(
  request.map(formatRequest),
  fc
    .tuple(
      fc.constantFrom('ask', 'ask,pace', 'ask,zero', 'ask,pace,', 'ask,zero,', 'as', 'asks', 's,'),
      fc.oneof(anyText, u32.map(String)),
    )
    .map(([start, rest]) => sealed(start + rest)),
  anyText,
);

interface Edit {
  readonly at: number;
  readonly kind: 'change' | 'insert' | 'remove' | 'double';
  readonly byte: number;
}

const edit: fc.Arbitrary<Edit> = fc.record({
  at: fc.nat(),
  kind: fc.constantFrom('change', 'insert', 'remove', 'double'),
  byte: fc.oneof(
    fc.integer({ min: 0, max: 255 }),
    fc.constantFrom(0x0a, 0x0d, 0x24, 0x2a, 0x2c, 0x30),
  ),
});

function edited(line: string, { at, kind, byte }: Edit): string {
  const place = at % (line.length + 1);
  const [before, after] = [line.slice(0, place), line.slice(place)];
  switch (kind) {
    case 'change':
      return before + String.fromCharCode(byte) + after.slice(1);
    case 'insert':
      return before + String.fromCharCode(byte) + after;
    case 'remove':
      return before + after.slice(1);
    case 'double':
      return before + after.slice(0, 3) + after;
  }
}

/** What comes over a port: lines, most of them whole, between their ends. */
const hostBytes = fc
  .array(
    fc.tuple(hostLine, fc.option(edit), fc.constantFrom('\n', '\r', '\r\n', '\n\n', '')),
    { minLength: 1, maxLength: 4 },
  )
  .map((lines) =>
    lines
      .map(([line, damage, end]) => (damage === null ? line : edited(line, damage)) + end)
      .join(''),
  );
const anyBytes = fc
  .uint8Array({ maxLength: 120 })
  .map((bytes) => Buffer.from(bytes).toString('latin1'));

needsFirmwareTools().describe('library and TypeScript', () => {
  it('say the same line for a frame, which reads as that frame', async () => {
    const frames = some(frame);
    const lines = frames.map(formatFrame);
    const cases = lines.map((line) => fields(...line.slice(1, -5).split(',')));
    const said = await answersOf('lines', cases);
    expect(firstDifference(said, lines), SEEDED).toBeNull();
    expect(said.map(parseFrame), SEEDED).toEqual(frames);
  });

  it('read the same requests in lines, damaged ones too', async () => {
    const bytes = some(fc.oneof({ arbitrary: hostBytes, weight: 4 }, anyBytes));
    const expected = bytes.map((one) => requestsIn(Buffer.from(one, 'latin1')));
    const read = await answersOf('lines', bytes.map((one) => fields('ask', hexadecimal(one))));
    expect(firstDifference(read, expected, bytes), SEEDED).toBeNull();
    // Not for want of requests: each kind came up, and so did nothing.
    for (const word of ['identify', 'pace', 'zero', 'other']) {
      expect(read.filter((words) => words.includes(word)).length).toBeGreaterThan(CASES / 100);
    }
    expect(read.filter((words) => words === '').length).toBeGreaterThan(CASES / 100);
  });

  it('agree on what is a number', async () => {
    const unit = fc.constantFrom(...'0123456789+-.eE,x ');
    const texts = some(fc.oneof(fc.string({ unit, maxLength: 8 }), fc.double().map(String)));
    const value = new Float64Array(1);
    const expected = texts.map((one) =>
      one.length > 0 && readNumber(one, 0, value, 0) === one.length ? 'yes' : 'no',
    );
    const read = await answersOf('lines', texts.map((one) => fields('is decimal', one)));
    expect(firstDifference(read, expected, texts), SEEDED).toBeNull();
    expect(read.filter((word) => word === 'yes').length).toBeGreaterThan(CASES / 20);
  });

  it('agree on what is a text', async () => {
    const texts = some(fc.string({ unit: characters('$', '*', ','), maxLength: 40 }));
    const expected = texts.map((one) => (freeText.read(one) === undefined ? 'no' : 'yes'));
    const read = await answersOf('lines', texts.map((one) => fields('is text', one)));
    expect(firstDifference(read, expected, texts), SEEDED).toBeNull();
  });

  it('average as arithmetic does', async () => {
    const sums = some(fc.tuple(fc.integer({ min: -(2 ** 30), max: 2 ** 30 }), whole(1, 32767)));
    const expected = sums.map(([sum, count]) => {
      const away = Math.sign(sum) * Math.floor(Math.abs(sum) / count + 0.5);
      return String(away + 0);
    });
    const read = await answersOf('lines', sums.map(([sum, count]) => fields('mean', sum, count)));
    expect(firstDifference(read, expected, sums.map(String)), SEEDED).toBeNull();
  });
});

/** The first place where they differ, with what it is about; null when they agree. */
function firstDifference(
  actual: readonly string[],
  expected: readonly string[],
  about: readonly string[] = expected,
): object | null {
  const index = expected.findIndex((one, i) => actual[i] !== one);
  if (index < 0 && actual.length === expected.length) return null;
  return { index, actual: actual[index], expected: expected[index], about: about[index] };
}
