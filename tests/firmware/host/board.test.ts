/** What a board says when, in a time that the test makes. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatRequest } from '#protocol/stillmark-line.ts';
import { needsFirmwareTools } from '../../support/needs.ts';
import { SEED, SEEDED } from './programs.ts';
import {
  BoardScript,
  CHANNEL_COUNT,
  framesOf,
  kinds,
  LONGEST_US,
  PERIOD_US,
  SHORTEST_US,
  type Said,
} from './board-script.ts';

const SECOND_US = 1_000_000;
const ANNOUNCEMENT = ['opening', 'identity', 'channel', 'channel', 'channel', 'pace'];

/** A sample for every period, with these counts. */
function sampling(script: BoardScript, counts: readonly (number | null)[], period_us = PERIOD_US) {
  let sequence = 0;
  return (elapsed_us: number): void => {
    if (elapsed_us % period_us === 0) script.sample(sequence++, ...counts);
  };
}

function gaps_us(said: readonly Said[]): number[] {
  return said.slice(1).map(({ at_us }, index) => at_us - (said[index] as Said).at_us);
}

function answersIn(said: readonly Said[]): string[] {
  return framesOf(said, 'answer').map(({ request, result }) => `${request} ${result}`);
}

type Happening = (script: BoardScript) => void;

/** What may come to a board, in any order. */
const life: fc.Arbitrary<Happening[]> = fc.array(
  fc.oneof(
    fc
      .constantFrom('*IDN?', 'AT', '$ask,zero,2*90B6', '$ask,pace,10000*3F9F', '$ask,hello*0000')
      .map((line): Happening => (script) => void script.host(line)),
    fc
      .constantFrom('log' as const, 'strike' as const, 'next' as const)
      .map((button): Happening => (script) => void script.press(button)),
    fc
      .integer({ min: 0, max: CHANNEL_COUNT })
      .map((channel): Happening => (script) => void script.over(channel)),
    fc
      .record({
        length_us: fc.integer({ min: 1, max: 300_000 }),
        bytes: fc.integer({ min: 0, max: 40 }),
        period_ms: fc.integer({ min: 1, max: 30 }),
      })
      .map(({ length_us, bytes, period_ms }): Happening => (script) => {
        const samples = sampling(script, [1, null, -500], period_ms * 1000);
        script.run(length_us, samples, { hasRoom: bytes > 0, bytes });
      }),
    fc.constant<Happening>((script) => {
      script.run(1_500_000, undefined, { hasRoom: false, bytes: 0 });
    }),
  ),
  { minLength: 5, maxLength: 25 },
);

needsFirmwareTools().describe('a board', () => {
  describe('announces itself', () => {
    it('at its start, after an empty line and before any sample', async () => {
      const script = new BoardScript();
      script.run(100_000, sampling(script, [1, 2, 3]), { hasRoom: true, bytes: 20 });
      const bytes = await script.bytes();
      expect(bytes.slice(0, 12)).toBe('\n$stillmark,');
      const said = await script.said();
      expect(kinds(said).slice(0, 7)).toEqual([...ANNOUNCEMENT, 'sample']);
      expect(said[0]?.frame).toMatchObject({ cause: 'boot', channelCount: CHANNEL_COUNT });
      expect(framesOf(said, 'channel').map(({ number }) => number)).toEqual([1, 2, 3]);
      expect(framesOf(said, 'sample')[0]?.sequence).toBe(0);
    });

    it.each([0, 2 ** 32 - 12 * SECOND_US])('at least every 10 s, from %i µs', async (start_us) => {
      const script = new BoardScript(start_us);
      script.run(42 * SECOND_US, sampling(script, [1, 2, 3]));
      const said = await script.said();
      const openings = said.filter(({ frame }) => frame.kind === 'opening');
      expect(openings.length).toBe(5);
      expect(Math.max(...gaps_us(openings))).toBeLessThanOrEqual(10 * SECOND_US);
      const causes = framesOf(openings, 'opening').map(({ cause }) => cause);
      expect(causes).toEqual(['boot', 'again', 'again', 'again', 'again']);
      expect(framesOf(said, 'sample').length).toBe((42 * SECOND_US) / PERIOD_US);
    });

    it('when asked, and once more when asked while it does', async () => {
      const script = new BoardScript();
      script.run(200_000).host('*IDN?').run(20_000, undefined, { hasRoom: true, bytes: 5 });
      script.host('*IDN?').host('*IDN?').run(500_000);
      const said = await script.said();
      expect(kinds(said)).toEqual([...ANNOUNCEMENT, ...ANNOUNCEMENT, ...ANNOUNCEMENT]);
    });
  });

  describe('gives signs of life', () => {
    const starts_us = [0, 2 ** 32 - 2 * SECOND_US];
    it.each(starts_us)('at least once a second without samples, from %i µs', async (start_us) => {
      const script = new BoardScript(start_us);
      script.run(5 * SECOND_US);
      const beats = (await script.said()).filter(({ frame }) => frame.kind === 'beat');
      expect(beats.length).toBe(5);
      expect(beats[0]?.at_us).toBeLessThanOrEqual(SECOND_US);
      expect(Math.max(...gaps_us(beats))).toBeLessThanOrEqual(SECOND_US);
    });

    it('by its samples while it sends some', async () => {
      const script = new BoardScript();
      script.run(5 * SECOND_US, sampling(script, [1, 2, 3]));
      expect(kinds(await script.said())).not.toContain('beat');
    });
  });

  describe('reports trouble', () => {
    it('when it begins and once a second while it lasts', async () => {
      const script = new BoardScript();
      script.run(300_000).run(3 * SECOND_US, () => script.over(2)).run(2 * SECOND_US);
      const troubles = (await script.said()).filter(({ frame }) => frame.kind === 'trouble');
      expect(troubles[0]?.at_us).toBe(300_000);
      expect(troubles.map(({ frame }) => frame)).toEqual(
        Array.from({ length: 4 }, () => ({ kind: 'trouble', channel: 2, trouble: 'over' })),
      );
    });

    it('no oftener when it flickers', async () => {
      const script = new BoardScript();
      script.run(5 * SECOND_US, (elapsed_us) => {
        if (elapsed_us % 30_000 === 0) script.over(1);
      });
      const troubles = framesOf(await script.said(), 'trouble');
      expect(troubles.length).toBe(5);
    });

    it('of one moment, too', async () => {
      const script = new BoardScript();
      script.run(500_000).over(3).run(2 * SECOND_US);
      expect(framesOf(await script.said(), 'trouble')).toHaveLength(1);
    });
  });

  describe('tells presses', () => {
    it('twice each, with nothing between a press and its copy but other lines', async () => {
      const script = new BoardScript();
      script.run(100_000).press('log').press('strike').run(10_000).press('next').run(SECOND_US);
      const said = (await script.said()).filter(({ frame }) => frame.kind === 'button');
      // Apart, so that one disturbance does not take both.
      const apart_us = gaps_us(said).filter((_, index) => index % 2 === 0);
      expect(Math.min(...apart_us)).toBeGreaterThanOrEqual(50_000);
      expect(framesOf(said, 'button')).toEqual(
        [
          { number: 0, time: 100_000, button: 'log' },
          { number: 1, time: 100_000, button: 'strike' },
          { number: 2, time: 110_000, button: 'next' },
        ].flatMap((press) => [
          { kind: 'button', ...press },
          { kind: 'button', ...press },
        ]),
      );
    });
  });

  describe('sets its pace', () => {
    it.each([
      [SHORTEST_US, SHORTEST_US],
      [10_200, 10_000],
      [10_250, 10_500],
      [LONGEST_US, LONGEST_US],
    ])('to %i µs as %i µs: answers, then announces', async (asked_us, set_us) => {
      const script = new BoardScript();
      script.run(100_000).host(formatRequest({ kind: 'pace', period_us: asked_us })).run(100_000);
      const said = await script.said();
      expect(kinds(said)).toEqual([...ANNOUNCEMENT, 'answer', ...ANNOUNCEMENT]);
      expect(answersIn(said)).toEqual(['pace done']);
      expect(framesOf(said, 'pace').at(-1)).toMatchObject({ period_us: set_us });
    });

    const beyond_us = [1, SHORTEST_US - 1, LONGEST_US + 1, 2 ** 32 - 1];
    it.each(beyond_us)('not to %i µs', async (asked_us) => {
      const script = new BoardScript();
      script.run(100_000).host(formatRequest({ kind: 'pace', period_us: asked_us })).run(100_000);
      const said = await script.said();
      expect(kinds(said)).toEqual([...ANNOUNCEMENT, 'answer']);
      expect(answersIn(said)).toEqual(['pace range']);
    });
  });

  it('answers one request after the other, and none without a checksum', async () => {
    const script = new BoardScript();
    script.run(100_000).host('AT').host('$ask,pace,10000*0000').host('$ask,hello*0A39');
    script.host(formatRequest({ kind: 'pace', period_us: 10_000 }));
    script.host(formatRequest({ kind: 'pace', period_us: 1 })).run(200_000);
    expect(answersIn(await script.said())).toEqual(['pace done', 'pace range']);
  });

  describe('takes a zero', () => {
    const zero = (channel: number) => formatRequest({ kind: 'zero', channel });

    it('as the mean of a second: answers once done, then announces', async () => {
      const script = new BoardScript();
      let sequence = 0;
      const wavering = (elapsed_us: number): void => {
        if (elapsed_us % PERIOD_US !== 0) return;
        script.sample(sequence, 100, sequence % 2 === 0 ? 30 : 36, 5);
        sequence += 1;
      };
      script.run(100_000, wavering).host(zero(2)).run(1_200_000, wavering);
      const said = await script.said();
      const answers = said.filter(({ frame }) => frame.kind === 'answer');
      expect(answers.map(({ frame }) => frame)).toEqual([
        { kind: 'answer', request: 'zero', result: 'done' },
      ]);
      expect(answers[0]?.at_us).toBeGreaterThanOrEqual(1_100_000);
      expect(framesOf(said, 'channel').map((channel) => channel.zero)).toEqual([0, 0, 0, 0, 33, 0]);
      const order = kinds(said).filter((kind) => kind !== 'sample');
      expect(order).toEqual([...ANNOUNCEMENT, 'answer', ...ANNOUNCEMENT]);
    });

    it.each([
      ['a channel that has none', 3, [1, 2, 3]],
      ['a channel that is not there', 4, [1, 2, 3]],
      ['a count that is too far off', 2, [0, 1601, 0]],
      ['a count too far off the other way', 1, [-401, 0, 0]],
      ['a missing reading', 1, [null, 0, 0]],
    ])('not of %s', async (_, channel, counts) => {
      const script = new BoardScript();
      const samples = sampling(script, counts);
      script.run(100_000, samples).host(zero(channel)).run(1_500_000, samples);
      const said = await script.said();
      expect(answersIn(said)).toEqual(['zero range']);
      expect(framesOf(said, 'channel').every((one) => one.zero === 0)).toBe(true);
    });

    it('one at a time', async () => {
      const script = new BoardScript();
      const samples = sampling(script, [10, 20, 30]);
      script.run(100_000, samples).host(zero(1)).run(500_000, samples);
      script.host(zero(2)).run(SECOND_US, samples);
      expect(answersIn(await script.said())).toEqual(['zero busy', 'zero done']);
    });
  });

  describe('on a line that is too slow', () => {
    // 115200 Bd carry 11.5 bytes a millisecond; a sample here has 30 bytes and comes every 2 ms.
    const slow = { hasRoom: true, bytes: 11 };

    it('drops whole samples and nothing else', async () => {
      const script = new BoardScript();
      const samples = sampling(script, [12_345, 12_345, 12_345], 2000);
      script.run(SECOND_US, samples, slow).press('log');
      script.host(formatRequest({ kind: 'pace', period_us: 10_000 })).over(1);
      script.run(12 * SECOND_US, samples, slow);
      const said = await script.said();
      expect(kinds(said)).not.toContain('fault');
      const causes = framesOf(said, 'opening').map(({ cause }) => cause);
      expect(causes).toEqual(['boot', 'again', 'again']);
      expect(framesOf(said, 'channel')).toHaveLength(9);
      expect(framesOf(said, 'button')).toHaveLength(2);
      expect(framesOf(said, 'answer')).toHaveLength(1);
      expect(framesOf(said, 'trouble')).toHaveLength(1);
      // What does arrive fills the line.
      const bytes = said.reduce((sum, { line }) => sum + line.length + 1, 0);
      expect(bytes).toBeGreaterThan(0.98 * 13_000 * slow.bytes);
      expect(framesOf(said, 'sample').length).toBeLessThan(6500);
    });
  });

  describe('that nobody reads', () => {
    it('keeps nothing, and introduces itself to the next who does', async () => {
      const script = new BoardScript();
      const samples = sampling(script, [1, 2, 3]);
      // It stops in the middle of a line.
      script.run(200_000, samples).run(3000, samples, { hasRoom: true, bytes: 7 });
      const unread = { hasRoom: false, bytes: 0 };
      script.run(10 * SECOND_US, samples, unread).press('log').over(1).host('*IDN?');
      script.host(formatRequest({ kind: 'pace', period_us: 10_000 })).host('half a request');
      script.run(10 * SECOND_US, samples, unread).run(200_000, samples);
      const said = await script.said();
      expect(kinds(said)).not.toContain('fault');
      const again = said.findLastIndex(({ frame }) => frame.kind === 'opening');
      expect(said[again]?.frame).toMatchObject({ cause: 'again' });
      const parts = kinds(said).slice(again).filter((kind) => kind !== 'sample' && kind !== 'beat');
      expect(parts).toEqual(ANNOUNCEMENT);
      expect(kinds(said)).not.toContain('button');
      const late = framesOf(said.slice(again), 'sample').map(({ time }) => time);
      expect(late.length).toBeGreaterThan(5);
      expect(Math.min(...late)).toBeGreaterThan(20 * SECOND_US);
    });
  });

  it('says whole lines and whole announcements, whatever happens', async () => {
    const lives = fc.sample(life, { numRuns: 25, seed: SEED });
    for (const one of lives) {
      const script = new BoardScript(2 ** 32 - SECOND_US);
      for (const happens of one) happens(script);
      const said = await script.run(500_000).said();
      expect(said.filter(({ frame }) => frame.kind === 'fault'), SEEDED).toEqual([]);
      // Only a port that pauses for a second, or the end, cuts an announcement short; another then
      // begins anew. So each is the whole or its beginning, in order, and the first word is opening.
      const parts = kinds(said).filter((kind) => ANNOUNCEMENT.includes(kind)).join(' ');
      const [before, ...announcements] = parts.split('opening').map((part) => part.trim());
      const [, ...rest] = ANNOUNCEMENT;
      const beginnings = ['', ...rest.map((_, last) => rest.slice(0, last + 1).join(' '))];
      expect(before, SEEDED).toBe('');
      expect(beginnings, `${SEEDED}: ${parts}`).toEqual(expect.arrayContaining(announcements));
    }
  });
});
