import { describe, expect, it, vi } from 'vitest';
import { playedTime, worldTime } from '../../server/run-time.ts';

describe('time that is played', () => {
  it('stands still until it is moved on', () => {
    vi.useFakeTimers();
    const time = playedTime();
    const called = vi.fn();
    time.every(0.5, called);
    vi.advanceTimersByTime(60_000);
    expect([time.clock(), called.mock.calls.length, vi.getTimerCount()]).toEqual([0, 0, 0]);
    vi.useRealTimers();
  });

  it('calls whoever wants to be called at his time, in order, and then stands where it was sent', () => {
    const time = playedTime();
    const calls: [name: string, at_s: number][] = [];
    time.every(0.5, () => calls.push(['slow', time.clock()]));
    const stop = time.every(0.2, () => calls.push(['quick', time.clock()]));
    time.moveTo(0.55);
    expect(calls).toEqual([['quick', 0.2], ['quick', 0.4], ['slow', 0.5]]);
    expect(time.clock()).toBe(0.55);
    stop();
    time.moveTo(1);
    expect(calls.slice(3)).toEqual([['slow', 1]]);
  });

  it('gives whole microseconds, as every recording has them', () => {
    const time = playedTime();
    for (const slice of [1, 3, 7, 2049]) {
      time.moveTo(slice / 49);
      expect(time.clock() * 1e6).toBeCloseTo(Math.round((slice / 49) * 1e6), 3);
    }
  });
});

it('the world’s time goes on by itself and calls in its rhythm until it is stopped', () => {
  vi.useFakeTimers();
  const time = worldTime();
  const times: number[] = [];
  const stop = time.every(0.5, () => times.push(time.clock()));
  vi.advanceTimersByTime(1600);
  expect(times).toEqual([0.5, 1, 1.5]);
  expect(time.sleptFor_s()).toBe(0);
  stop();
  expect(vi.getTimerCount()).toBe(0);
  vi.useRealTimers();
});
