import { describe, expect, it } from 'vitest';
import type { Samples } from '#core/live-messages.ts';
import { extentOf, reduceToColumns } from '../../../web/draw/pixel-columns.ts';
import {
  appendSamples,
  clearBuffer,
  createWindowBuffer,
  newestTime_s,
  recentLevels,
  WINDOW_S,
} from '../../../web/draw/window-buffer.ts';

const at = (times: number[], voltage: (t: number) => number | null): Samples => ({
  time_s: times,
  voltage_V: times.map(voltage),
  current_A: times.map(() => 0.5),
  windSpeed_mps: times.map(() => null),
});
const range = (from: number, to: number, step: number): number[] =>
  Array.from({ length: Math.round((to - from) / step) }, (_, i) => from + i * step);
const filled = (samples: Samples) => {
  const buffer = createWindowBuffer();
  appendSamples(buffer, samples);
  return buffer;
};
const frame = { now_s: 60, columns: 100, gap_s: 0.5, stretches: [] };

describe('window buffer', () => {
  it('keeps the last minute at 1 kHz and lets go of what is older', () => {
    const buffer = createWindowBuffer();
    for (let from = 0; from < 200; from += 10)
      appendSamples(
        buffer,
        at(range(from, from + 10, 0.001), () => 1),
      );
    expect(newestTime_s(buffer)).toBeCloseTo(199.999, 6);
    const { time_s } = reduceToColumns(buffer, 'voltage_V', { ...frame, now_s: 200 });
    expect(time_s[0]).toBeGreaterThanOrEqual(200 - WINDOW_S);
    expect(time_s[0]).toBeLessThan(200 - WINDOW_S + 1);
  });
  it('takes what it already has only once', () => {
    const buffer = filled(at([1, 2, 3], () => 1));
    appendSamples(
      buffer,
      at([2, 3, 4], () => 9),
    );
    expect(buffer.length).toBe(4);
    clearBuffer(buffer);
    expect(newestTime_s(buffer)).toBeNull();
  });
  it('multiplies sample by sample for power; what is missing stays missing', () => {
    const buffer = filled(at([58, 59], (t) => (t === 58 ? null : 3)));
    expect(reduceToColumns(buffer, 'power_W', frame).all).toEqual([1.5]);
  });
  it('gives recent means, oldest first, without the empty ones', () => {
    const buffer = filled(at(range(50, 60, 0.01), (t) => (t >= 59.69 ? 5 : 2)));
    expect(recentLevels(buffer, 'voltage_V').at(-1)).toBeCloseTo(5);
    expect(recentLevels(buffer, 'voltage_V')[0]).toBeCloseTo(2);
    expect(recentLevels(buffer, 'voltage_V')).toHaveLength(5);
    expect(recentLevels(buffer, 'windSpeed_mps')).toEqual([]);
  });
});

describe('reduceToColumns', () => {
  it('keeps the extremes of each column, however many samples it holds', () => {
    const buffer = filled(
      at(range(0, 60, 0.001), (t) => (Math.abs(t - 30.0005) < 0.0006 ? 99 : Math.sin(t))),
    );
    const data = reduceToColumns(buffer, 'voltage_V', frame);
    expect(data.all.length).toBeLessThanOrEqual(202);
    expect(extentOf(data)).toMatchObject({ most: 99 });
    expect(extentOf(data)?.least).toBeCloseTo(-1, 3);
  });
  it('keeps times in order', () => {
    const { time_s } = reduceToColumns(
      filled(at(range(0, 60, 0.01), (t) => Math.sin(40 * t))),
      'voltage_V',
      frame,
    );
    expect([...time_s].sort((a, b) => a - b)).toEqual(time_s);
  });
  it('leaves a gap where samples pause or a reading is missing, never a bridge', () => {
    const paused = filled(at([...range(10, 20, 0.1), ...range(30, 40, 0.1)], () => 1));
    expect(
      reduceToColumns(paused, 'voltage_V', frame).all.filter((value) => value === null),
    ).toHaveLength(1);
    const missing = filled(at(range(10, 20, 0.1), (t) => (t > 14 && t < 15 ? null : 1)));
    expect(reduceToColumns(missing, 'voltage_V', frame).all).toContain(null);
  });
  it('does not move its columns with the window', () => {
    const buffer = filled(at(range(0, 60, 0.01), (t) => Math.sin(9 * t)));
    const [a, b] = [60, 60.35].map((now_s) =>
      reduceToColumns(buffer, 'voltage_V', { ...frame, now_s }),
    );
    const middle = (data: typeof a) => data?.time_s.filter((t) => t > 10 && t < 50);
    expect(middle(a)).toEqual(middle(b));
  });
  it('repeats in the settled curve only what lies in a settled stretch', () => {
    const buffer = filled(at(range(0, 60, 0.5), () => 2));
    const data = reduceToColumns(buffer, 'voltage_V', {
      ...frame,
      stretches: [{ from_s: 20, to_s: 30 }],
    });
    data.time_s.forEach((t, i) => expect(data.settled[i]).toBe(t >= 20 && t <= 30 ? 2 : null));
  });
});
