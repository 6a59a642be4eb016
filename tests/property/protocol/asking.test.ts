/** Whatever a board says: nothing is asked before it has announced our grammar, or without end. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Event } from '#core/events.ts';
import type { Input } from '#core/inputs.ts';
import { begin } from '#core/pipeline/state.ts';
import { step } from '#core/pipeline/step.ts';
import { freshHead } from '#core/recording.ts';
import type { Frame } from '#protocol/frame.ts';
import { formatFrame } from '#protocol/stillmark-line.ts';

const CHANNEL: Frame = {
  kind: 'channel',
  number: 1,
  quantity: 'voltage',
  unit: 'mV',
  scale: 5,
  zero: 0,
  gain: 1,
  offset: 0,
  gainUncertainty: null,
  offsetUncertainty: null,
};
/** What announces our grammar. */
const GREETINGS: readonly Frame[] = [
  { kind: 'opening', cause: 'boot', timeUnit: 'us', channelCount: 1 },
  { kind: 'opening', cause: 'again', timeUnit: 'us', channelCount: 1 },
  { kind: 'beat', time: 7 },
];
const OTHER_FRAMES: readonly Frame[] = [
  { kind: 'identity', maker: 'a', model: 'b', serial: '0', firmware: '1' },
  CHANNEL,
  { kind: 'pace', period_us: 20_000, shortest_us: 1000, longest_us: 100_000 },
  { kind: 'pace', period_us: 10_000, shortest_us: 1000, longest_us: 100_000 },
  { kind: 'answer', request: 'pace', result: 'done' },
  { kind: 'answer', request: 'pace', result: 'busy' },
  { kind: 'answer', request: 'zero', result: 'done' },
  { kind: 'answer', request: 'other', result: 'unknown' },
  { kind: 'foreign', version: 2 },
  { kind: 'button', number: 1, time: 9, button: 'strike' },
  { kind: 'trouble', channel: 1, trouble: 'over' },
  { kind: 'sample', sequence: 1, time: 5, counts: [7] },
];
const PLAIN = ['time_ms,voltage_V', '20,1.5', '1.5', 'ready', '*IDN?', '$stillmark,1,boot,us,1*0000'];

type Said =
  | { readonly line: string; readonly isGreeting: boolean }
  | 'tick'
  | 'opened'
  | 'closed'
  | 'zero';

const plain = fc.constantFrom(...PLAIN).map((line): Said => ({ line, isGreeting: false }));
const other = fc
  .constantFrom(...OTHER_FRAMES)
  .map((frame): Said => ({ line: formatFrame(frame), isGreeting: false }));
const greeting = fc
  .constantFrom(...GREETINGS)
  .map((frame): Said => ({ line: formatFrame(frame), isGreeting: true }));
const happening = fc.constantFrom<Said>('tick', 'tick', 'opened', 'closed', 'zero');
/** With the time that passes before it, in tenths of a second. */
const course = (...kinds: fc.Arbitrary<Said>[]) =>
  fc.array(fc.tuple(fc.nat({ max: 40 }), fc.oneof(...kinds)), { maxLength: 120 });

function inputOf(said: Said, at_s: number): Input {
  if (typeof said === 'object') return { kind: 'line', at_s, text: said.line };
  switch (said) {
    case 'tick':
      return { kind: 'tick', at_s };
    case 'zero':
      return { kind: 'zero', at_s, channel: 1 };
    case 'closed':
      return { kind: 'closed', at_s, reason: 'unplugged' };
    case 'opened': {
      const link = { source: 'serial', id: 'a', name: 'a', clock: 'arrival' } as const;
      return { kind: 'opened', at_s, link: { ...link, wholeFromStart: false } };
    }
  }
}

/** Plays a course on an open connection; `look` sees each step with the events that it gave. */
function play(
  said: readonly (readonly [number, Said])[],
  look: (said: Said, asked: Event[]) => void,
): void {
  let state = begin(freshHead('board'), 1);
  let tenths = 0;
  for (const [wait, one] of [[0, 'opened'] as const, ...said]) {
    tenths += wait;
    const result = step(state, inputOf(one, tenths / 10));
    state = result.state;
    look(one, result.events.filter(({ kind }) => kind === 'ask'));
  }
}

describe('requests to the board', () => {
  it('never come before its greeting over this connection', () => {
    fc.assert(
      fc.property(course(plain, other, greeting, happening), (said) => {
        let wasGreeted = false;
        play(said, (one, asked) => {
          if (one === 'opened' || one === 'closed') wasGreeted = false;
          if (typeof one === 'object' && one.isGreeting) wasGreeted = true;
          if (!wasGreeted) expect(asked).toEqual([]);
        });
      }),
      { numRuns: 1000 },
    );
  });

  it('never come at all to a board that sends plain lines', () => {
    fc.assert(
      fc.property(course(plain, happening), (said) => {
        play(said, (_, asked) => expect(asked).toEqual([]));
      }),
      { numRuns: 300 },
    );
  });

  it('come, where they come, one at a time and not without end', () => {
    fc.assert(
      fc.property(course(other, greeting, fc.constant<Said>('tick')), (said) => {
        let count = 0;
        play(said, (_, asked) => {
          expect(asked.length).toBeLessThanOrEqual(1);
          count += asked.length;
        });
        expect(count).toBeLessThanOrEqual(30);
      }),
      { numRuns: 300 },
    );
  });

  it('do come to a board that greets and says nothing more', () => {
    const kinds: string[] = [];
    const greet: Said = { line: formatFrame({ kind: 'beat', time: 1 }), isGreeting: true };
    play([[1, greet], ...Array.from({ length: 99 }, () => [5, 'tick'] as const)], (_, asked) => {
      for (const event of asked) if (event.kind === 'ask') kinds.push(event.request.kind);
    });
    expect(kinds).toEqual(['identify', 'identify', 'identify']);
  });
});
