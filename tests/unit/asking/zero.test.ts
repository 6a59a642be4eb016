import { describe, expect, it } from 'vitest';
import { zeroDoubt, zeroObstacle } from '#core/asking/zero-doubt.ts';
import type { Frame } from '#protocol/frame.ts';
import { channel } from '../reading/harness.ts';
import { announcement, BEAT, connect, CURRENT, IDENTITY, opening, pace, VOLTAGE } from './asked-board.ts';

const answer = (result: 'done' | 'range' | 'busy' | 'unknown'): Frame => ({
  kind: 'answer',
  request: 'zero',
  result,
});
const again = (zero: number) =>
  announcement(10_000, { cause: 'again', current: { ...CURRENT, zero } });

/** A board that is read from 1 s to 4 s, with this on its two channels. */
function running(counts: readonly [number, number]) {
  const bench = connect();
  bench.open();
  bench.say(1, ...announcement(10_000));
  bench.read(1, 4, counts);
  return bench;
}

describe('a zero', () => {
  it('is asked for once, and told with what it is worth', () => {
    const bench = running([0, 3]);
    bench.zero(4, 2);
    expect(bench.asked).toEqual([[{ kind: 'zero', channel: 2 }, 4]]);
    const { asking } = bench.state();
    expect(asking.zeroing).toMatchObject({ phase: 'asked', came: null });
    bench.say(5, answer('done'), ...again(-37));
    // 0.12 mA a count: −37 counts are −4.44 mA.
    expect(asking.zeroing?.came?.message).toBe(
      'Zero of current taken: \u221237 counts, worth \u22124.4 mA (before: 3).',
    );
    expect(asking.zeroing?.phase).toBe('over');
    bench.wait(5.5, 60);
    expect(bench.asked.length).toBe(1);
  });

  it('breaks off what was going on and leaves no trial half of it', () => {
    const bench = running([400, 900]);
    bench.read(4, 20, [400, 900]);
    bench.zero(20, 2);
    bench.say(20.5, answer('done'), ...again(900));
    const closed = bench.events.flatMap((event) => (event.kind === 'closed' ? [event.plateau] : []));
    expect(closed).toMatchObject([{ endReason: 'interrupted' }]);
    bench.read(21, 22, [400, 900]);
    const sample = bench.events.findLast((event) => event.kind === 'sample');
    expect(sample?.kind === 'sample' && sample.sample.current_A).toBe(0);
  });

  it('is not told from an announcement that came before the answer', () => {
    const bench = running([0, 3]);
    bench.zero(4, 2);
    bench.say(4.2, ...again(3));
    expect(bench.state().asking.zeroing?.came).toBeNull();
    bench.say(4.3, answer('done'));
    expect(bench.state().asking.zeroing?.came).toBeNull();
    bench.say(4.4, ...again(3));
    expect(bench.state().asking.zeroing?.came?.message).toContain('as before');
  });

  it.each([
    ['range', /too far from nothing.*Stop the fan/],
    ['busy', /busy. Try again/],
    ['unknown', /does not know how/],
  ] as const)('that is refused (%s) says why and is not tried again by itself', (result, words) => {
    const bench = running([0, 3]);
    bench.zero(4, 2);
    bench.say(5, answer(result));
    bench.wait(5.5, 60);
    expect(bench.state().asking.zeroing?.came?.message).toMatch(words);
    expect(bench.asked.length).toBe(1);
  });

  it('that is never answered is given up after 10 s, without another try', () => {
    const bench = running([0, 3]);
    bench.zero(4, 2);
    bench.read(4, 13.9);
    expect(bench.state().asking.zeroing?.phase).toBe('asked');
    bench.read(13.9, 15);
    expect(bench.state().asking.zeroing?.came?.message).toContain('has not answered');
    expect(bench.asked.length).toBe(1);
  });

  it('is given up when the board restarts, and forgotten when it is unplugged', () => {
    const bench = running([0, 3]);
    bench.zero(4, 2);
    bench.say(5, ...announcement(10_000));
    expect(bench.state().asking.zeroing?.phase).toBe('over');
    bench.close(6);
    expect(bench.state().asking.zeroing).toBeNull();
  });

  it('is not asked of a board that can not be asked now', () => {
    const bench = running([0, 3]);
    bench.close(5);
    bench.zero(6, 2);
    expect(bench.asked).toEqual([]);
    const notice = { code: 'orphan-zero', about: ['no-readings', '2', ''] };
    expect(bench.notices()).toMatchObject([notice]);
  });
});

describe('what stands against a zero', () => {
  it('is nothing on a channel that is read', () => {
    expect(zeroObstacle(running([0, 3]).state(), 2)).toBeNull();
  });

  it.each([
    ['no such channel', 3, /no channel 3/],
    ['pulses, which only grow', 1, /no zero that could be taken/],
    ['a quantity that is not known', 2, /no channel 2|no zero/],
  ])('is %s', (_, number, words) => {
    const bench = connect();
    bench.open();
    const channels = [channel(1, 'windPulses', 'count'), channel(2, 'brightness', 'lux')];
    bench.say(1, opening(), IDENTITY, ...channels, pace(10_000));
    bench.read(1, 2);
    const state = { ...bench.state(), health: 'reading' as const };
    expect(zeroObstacle(state, number)?.message).toMatch(words);
  });

  it('is silence, an announcement that is not whole, and a zero that is under way', () => {
    const bench = connect();
    bench.open();
    bench.say(1, BEAT, VOLTAGE);
    expect(zeroObstacle(bench.state(), 1)?.message).toMatch(/No readings/);
    const other = running([0, 3]);
    other.zero(4, 2);
    expect(zeroObstacle(other.state(), 1)?.message).toMatch(/already/);
    other.say(5, answer('unknown'));
    expect(zeroObstacle(other.state(), 1)?.message).toMatch(/does not know how/);
  });
});

describe('a doubt about a zero', () => {
  it('is none while the rig rests, with an offset of the shunt', () => {
    expect(zeroDoubt(running([0, -37]).state().verdict)).toBeNull();
  });

  it('says what is read while the rig runs, steady or not', () => {
    // 460 counts of 5 mV, and 900 of 0.12 mA (108 mA, to two digits).
    const words = zeroDoubt(running([460, 903]).state().verdict);
    expect(words?.message).toBe(
      'The board reads voltage 2300 mV, current 110 mA. Is the fan off, and are the blades at rest?',
    );
  });

  it('is there as long as nothing is known', () => {
    expect(zeroDoubt(null)?.message).toMatch(/not known yet/);
  });
});
