import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  ANSWERS,
  BUTTONS,
  GRAMMAR_VERSION,
  MOST_CHANNELS,
  REQUEST_NAMES,
  TROUBLES,
  type Frame,
  type Request,
} from '#protocol/frame.ts';
import { LINE_LIMIT } from '#protocol/line-guard.ts';
import { formatFrame, formatRequest, parseFrame, parseRequest } from '#protocol/stillmark-line.ts';

const u16 = fc.integer({ min: 0, max: 2 ** 16 - 1 });
const u32 = fc.integer({ min: 0, max: 2 ** 32 - 1 });
const i32 = fc.integer({ min: -(2 ** 31), max: 2 ** 31 - 1 });
const period = fc.integer({ min: 1, max: 2 ** 32 - 1 });
const printable = Array.from({ length: 95 }, (_, i) => String.fromCharCode(0x20 + i));
const text = fc.string({
  unit: fc.constantFrom(...printable.filter((character) => !'$*,'.includes(character))),
  minLength: 1,
  maxLength: 40,
});
// Minus zero is written as zero.
const decimal = fc.double({ noNaN: true, noDefaultInfinity: true }).map((value) => value + 0);
const uncertainty = fc.option(decimal.map(Math.abs));

function kind<const K extends string>(name: K) {
  return fc.constant(name);
}

const sample = fc.record({
  kind: kind('sample'),
  sequence: u16,
  time: u32,
  counts: fc.array(fc.option(i32), { minLength: 1, maxLength: MOST_CHANNELS }),
});

const frame: fc.Arbitrary<Frame> = fc.oneof(
  sample,
  fc.record({
    kind: kind('opening'),
    cause: fc.constantFrom('boot' as const, 'again' as const),
    timeUnit: fc.constantFrom('us' as const, 'ms' as const),
    channelCount: fc.integer({ min: 1, max: MOST_CHANNELS }),
  }),
  fc.record({
    kind: kind('foreign'),
    version: u16.filter((version) => version !== GRAMMAR_VERSION),
  }),
  fc.record({ kind: kind('identity'), maker: text, model: text, serial: text, firmware: text }),
  fc.record({
    kind: kind('channel'),
    number: fc.integer({ min: 1, max: MOST_CHANNELS }),
    quantity: text,
    unit: text,
    scale: decimal,
    zero: i32,
    gain: decimal,
    offset: decimal,
    gainUncertainty: uncertainty,
    offsetUncertainty: uncertainty,
  }),
  fc.record({ kind: kind('pace'), period_us: period, shortest_us: period, longest_us: period }),
  fc.record({ kind: kind('button'), number: u16, time: u32, button: fc.constantFrom(...BUTTONS) }),
  fc.record({ kind: kind('beat'), time: u32 }),
  fc.record({
    kind: kind('trouble'),
    channel: fc.integer({ min: 0, max: MOST_CHANNELS }),
    trouble: fc.constantFrom(...TROUBLES),
  }),
  fc.record({
    kind: kind('answer'),
    request: fc.constantFrom(...REQUEST_NAMES),
    result: fc.constantFrom(...ANSWERS),
  }),
);

const request: fc.Arbitrary<Request> = fc.oneof(
  fc.record({ kind: kind('identify') }),
  fc.record({ kind: kind('pace'), period_us: period }),
  fc.record({ kind: kind('zero'), channel: fc.integer({ min: 1, max: MOST_CHANNELS }) }),
);

describe('Stillmark lines', () => {
  it('say what was put into them', () => {
    fc.assert(
      fc.property(frame, (said) => {
        expect(parseFrame(formatFrame(said))).toEqual(said);
      }),
      { numRuns: 3000 },
    );
  });

  it('fit through the line guard', () => {
    fc.assert(
      fc.property(frame, (said) => {
        expect(formatFrame(said)).toMatch(new RegExp(`^[ -~]{1,${LINE_LIMIT}}$`));
      }),
    );
  });

  it('of samples have one spelling only', () => {
    fc.assert(
      fc.property(sample, (said) => {
        const line = formatFrame(said);
        expect(formatFrame(parseFrame(line) as Frame)).toBe(line);
      }),
    );
  });

  it('carry requests as well', () => {
    fc.assert(
      fc.property(request, (asked) => {
        expect(parseRequest(formatRequest(asked))).toEqual(asked);
      }),
    );
  });

  it('with one character changed, lost, added or swapped with the next are refused', () => {
    const character = fc.constantFrom(...printable);
    fc.assert(
      fc.property(
        frame,
        fc.nat(),
        character,
        fc.constantFrom(0, 1, 2, 3),
        (said, where, other, how) => {
          const line = formatFrame(said);
          const at = where % line.length;
          const [before, here, after] = [
            line.slice(0, at),
            line.slice(at, at + 1),
            line.slice(at + 1),
          ];
          const swapped = after.slice(0, 1) + here + after.slice(1);
          const damaged = before + [other + after, after, here + other + after, swapped][how];
          fc.pre(damaged !== line);
          expect(parseFrame(damaged)).toMatchObject({ kind: 'fault' });
        },
      ),
      { numRuns: 5000, seed: 1 },
    );
  });

  it('cut anywhere, or run together with the next, are refused', () => {
    fc.assert(
      fc.property(frame, frame, fc.nat(), (first, second, where) => {
        const [line, next] = [formatFrame(first), formatFrame(second)];
        const at = 1 + (where % (line.length - 1));
        expect(parseFrame(line.slice(0, at))).toMatchObject({ kind: 'fault' });
        expect(parseFrame(line.slice(at))).toMatchObject({ kind: 'fault' });
        expect(parseFrame(line.slice(0, at) + next)).toMatchObject({ kind: 'fault' });
      }),
      { numRuns: 2000, seed: 1 },
    );
  });

  it('of any other text never throw', () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string(),
          fc.string().map((body) => `$${body}*0000`),
        ),
        (any) => {
          expect(['malformed', 'checksum']).toContain(
            (parseFrame(any) as { fault?: string }).fault,
          );
          expect(parseRequest(any)).toBeDefined();
        },
      ),
      { numRuns: 3000, seed: 1 },
    );
  });
});
