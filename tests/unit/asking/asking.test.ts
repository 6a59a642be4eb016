/** When the board is asked for what. The rules are those of the grammar, "From the host". */
import { describe, expect, it } from 'vitest';
import type { Frame } from '#protocol/frame.ts';
import {
  announcement,
  BEAT,
  connect,
  CURRENT,
  IDENTITY,
  opening,
  pace,
  VOLTAGE,
} from './asked-board.ts';

type AnswerFrame = Extract<Frame, { kind: 'answer' }>;
const answer = (result: AnswerFrame['result'], request: AnswerFrame['request'] = 'pace'): Frame => ({
  kind: 'answer',
  request,
  result,
});
const SAMPLE: Frame = { kind: 'sample', sequence: 1, time: 20_000, counts: [1, 2] };

function opened() {
  const bench = connect();
  bench.open();
  return bench;
}

describe('nothing is asked of', () => {
  it.each<[string, (Frame | string)[]]>([
    ['a board that says nothing', []],
    ['a board that sends plain lines', ['time_ms,voltage_V', '20,1.5', '40,1.5', 'ready', '*IDN?']],
    ['a board of another version', [{ kind: 'foreign', version: 2 }, SAMPLE, IDENTITY, pace(5)]],
    ['a board that has not announced itself', [SAMPLE, IDENTITY, VOLTAGE, CURRENT, pace(5)]],
    ['a board whose announcement was damaged', ['$stillmark,1,boot,us,2*0000', '$beat,1,5*0000']],
  ])('%s', (_, said) => {
    const bench = opened();
    said.forEach((one, i) => bench.say(1 + i / 10, one));
    bench.wait(2, 60);
    expect(bench.asked).toEqual([]);
  });

  it('a board that introduces itself whole and at the wanted pace', () => {
    const bench = opened();
    bench.say(1, ...announcement(10_000));
    bench.wait(1.5, 60);
    expect(bench.asked).toEqual([]);
  });

  it('a board that turns to another version, or to plain lines', () => {
    for (const turn of [{ kind: 'foreign', version: 2 } as const, 'voltage_V,current_A']) {
      const bench = opened();
      bench.say(1, opening('again'), turn);
      bench.wait(1.5, 60);
      expect(bench.asked).toEqual([]);
    }
  });

  it('a board that has gone', () => {
    const bench = opened();
    bench.say(1, BEAT);
    bench.close(1.5);
    const before = bench.asked.length;
    bench.wait(2, 60);
    expect(bench.asked.length).toBe(before);
  });
});

describe('identity', () => {
  it('is asked for at once where only a beat is heard', () => {
    const bench = opened();
    bench.say(1, SAMPLE, BEAT);
    expect(bench.asked).toEqual([[{ kind: 'identify' }, 1]]);
  });

  it('is asked for when an announcement stays incomplete, not while it goes on', () => {
    const bench = opened();
    bench.say(1, opening(), IDENTITY, VOLTAGE);
    bench.say(1.9, SAMPLE);
    expect(bench.asked).toEqual([]);
    bench.say(2, SAMPLE);
    expect(bench.asked).toEqual([[{ kind: 'identify' }, 2]]);
    bench.say(2.1, ...announcement(10_000, { cause: 'again' }));
    bench.wait(2.5, 30);
    expect(bench.kinds()).toEqual(['identify']);
  });

  it('is asked for three times, 2 s apart, and then no more', () => {
    const bench = opened();
    bench.say(1, BEAT);
    for (let at_s = 1.5; at_s < 60; at_s += 0.5) bench.say(at_s, BEAT);
    expect(bench.asked.map(([, at_s]) => at_s)).toEqual([1, 3, 5]);
    expect(bench.notices().map(({ code }) => code)).toEqual(['board-unanswered']);
  });

  it('is asked for over each connection anew', () => {
    const bench = opened();
    bench.say(1, BEAT, ...announcement(10_000, { cause: 'again' }));
    bench.close(2);
    bench.open(3);
    bench.wait(3.5, 6);
    expect(bench.kinds()).toEqual(['identify']);
    bench.say(7, BEAT);
    expect(bench.kinds()).toEqual(['identify', 'identify']);
  });
});

describe('the pace', () => {
  const asked = (period_us: number, at_s: number) => [{ kind: 'pace', period_us }, at_s] as const;

  it('is set as soon as the announcement is whole', () => {
    const bench = opened();
    bench.say(1, ...announcement(20_000));
    expect(bench.asked).toEqual([asked(10_000, 1)]);
    bench.say(1.1, answer('done'), ...announcement(10_000, { cause: 'again' }));
    bench.wait(1.5, 60);
    expect(bench.asked.length).toBe(1);
  });

  it.each([
    [100, { shortest_us: 12_500, longest_us: 500_000 }, 12_500],
    [100, { shortest_us: 1000, longest_us: 5000 }, 5000],
    [3, { shortest_us: 1000, longest_us: 500_000 }, 333_333],
  ])('for %d samples a second is kept within %o', (rate_Hz, { shortest_us, longest_us }, us) => {
    const bench = connect();
    bench.configure(0, rate_Hz);
    bench.open(0.1);
    bench.say(1, opening(), IDENTITY, VOLTAGE, CURRENT, pace(4321, shortest_us, longest_us));
    expect(bench.asked).toEqual([asked(us, 1)]);
  });

  it('is left alone where the limits contradict each other', () => {
    const bench = opened();
    bench.say(1, opening(), IDENTITY, VOLTAGE, CURRENT, pace(20_000, 5000, 1000));
    bench.wait(1.5, 20);
    expect(bench.asked).toEqual([]);
  });

  it('that the board can only come near to is asked for once', () => {
    const bench = opened();
    bench.say(1, ...announcement(20_000));
    bench.say(1.1, answer('done'), ...announcement(10_240, { cause: 'again' }));
    bench.say(11, ...announcement(10_240, { cause: 'again' }));
    bench.wait(12, 60);
    expect(bench.asked.length).toBe(1);
  });

  it.each(['range', 'unknown'] as const)('refused as %s is not asked for again', (result) => {
    const bench = opened();
    const request = result === 'unknown' ? 'other' : 'pace';
    bench.say(1, ...announcement(20_000), answer(result, request));
    bench.say(11, ...announcement(20_000, { cause: 'again' }));
    bench.wait(12, 60);
    expect(bench.asked.length).toBe(1);
    expect(bench.notices().map(({ code }) => code)).toEqual(['board-refused']);
  });

  it('is asked for again when the board was busy, three times in all', () => {
    const bench = opened();
    bench.say(1, ...announcement(20_000), answer('busy'));
    bench.wait(1.5, 2.5);
    expect(bench.asked.length).toBe(1);
    bench.wait(3, 3);
    bench.say(3.1, answer('busy'));
    bench.wait(3.5, 60);
    expect(bench.asked.map(([, at_s]) => at_s)).toEqual([1, 3, 5.5]);
    expect(bench.notices()).toMatchObject([{ code: 'board-unanswered' }]);
    expect(bench.notices()[0]?.message).toContain('busy');
  });

  it('is set again after a restart, and when the operator wants another', () => {
    const bench = opened();
    bench.say(1, ...announcement(20_000), answer('done'), ...announcement(10_000, { cause: 'again' }));
    bench.say(5, ...announcement(20_000), answer('done'), ...announcement(10_000, { cause: 'again' }));
    bench.configure(8, 50);
    expect(bench.asked).toEqual([asked(10_000, 1), asked(10_000, 5), asked(20_000, 8)]);
  });

  it('is not set for ever on a board that restarts at every request', () => {
    const bench = opened();
    for (let at_s = 1; at_s < 500; at_s += 3) bench.say(at_s, ...announcement(20_000));
    expect(bench.asked.length).toBe(30);
    expect(bench.notices().map(({ code }) => code)).toContain('board-unanswered');
  });

  it('that changes breaks off what was going on', () => {
    const bench = opened();
    bench.say(1, ...announcement(10_000));
    bench.read(1, 20, [400, 900]);
    expect(bench.events.some(({ kind }) => kind === 'declared')).toBe(true);
    bench.say(20, ...announcement(20_000, { cause: 'again' }));
    const closed = bench.events.flatMap((event) => (event.kind === 'closed' ? [event.plateau] : []));
    expect(closed).toMatchObject([{ endReason: 'interrupted' }]);
    expect(bench.state().reader.samplePeriod_s).toBe(0.02);
  });
});
