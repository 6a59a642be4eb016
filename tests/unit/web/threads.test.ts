import { describe, expect, it } from 'vitest';
import type { CurveData } from '../../../web/draw/pixel-columns.ts';
import { frayedStrands, lastEntry, lastTimeAt, layThreads } from '../../../web/draw/threads.ts';

const curveOf = (power: (t: number) => number): CurveData => {
  const time_s = Array.from({ length: 400 }, (_, i) => 40 + i * 0.05);
  return { time_s, all: time_s.map(power), settled: time_s.map(() => null) };
};
const places = {
  xOf: (time_s: number) => (time_s - 40) * 10,
  yOf: (power_W: number) => 300 - power_W * 1000,
  nowX: 200,
  slotX: 500,
  cordWidth: 7.2,
  rem: 16,
};
const look = { level_W: 0.24, gait: 'waver', phase: 0 } as const;
/** Where a path ends. */
const endOf = (path: string | undefined) => {
  const numbers = (path ?? '').match(/-?[\d.]+/g)?.map(Number) ?? [];
  return path?.includes('H')
    ? { x: numbers[2], y: numbers[1] }
    : { x: numbers.at(-2), y: numbers.at(-1) };
};
const rising = curveOf((t) => Math.min((t - 40) * 0.02, 0.24));

describe('heights on the curve', () => {
  it('finds when the curve was last at a height', () => {
    expect(lastTimeAt(rising, 0.1)).toBeCloseTo(45, 6);
    expect(lastTimeAt(rising, 0.5)).toBeNull();
  });
  it('finds when it came into the band that it is in', () => {
    expect(lastEntry(rising, 0.2, 0.3)).toBeCloseTo(50, 1);
    expect(lastEntry(rising, 0.3, 0.4)).toBeNull();
  });
  it('never looks across a gap', () => {
    const broken = { ...rising, all: rising.all.map((value, i) => (i === 100 ? null : value)) };
    expect(lastTimeAt(broken, (rising.all[99]! + rising.all[101]!) / 2)).toBeNull();
  });
});

describe('layThreads', () => {
  it('packs the joined threads as a cord whose width tells how many they are', () => {
    const threads = Array.from({ length: 24 }, (_, i) => ({ power_W: 0.24, joined: i >= 6 }));
    const { cord, loose } = layThreads(threads, rising, places, look);
    expect(cord).toMatchObject({ y: 60, toX: 500 });
    expect(cord?.width).toBeCloseTo(7.2 * 0.75);
    expect(loose).toHaveLength(6);
  });
  it('ends every loose thread at its true height, waving or crossing', () => {
    const heights = [0.05, 0.1, 0.15, 0.2];
    const threads = heights.map((power_W) => ({ power_W, joined: false }));
    for (const gait of ['waver', 'crossing'] as const) {
      for (const phase of [0, 1.3, 4]) {
        const { loose, cord } = layThreads(threads, rising, places, { ...look, gait, phase });
        expect(cord).toBeNull();
        loose.forEach((path, i) => {
          expect(endOf(path).x).toBeCloseTo(500, 1);
          expect(endOf(path).y).toBeCloseTo(places.yOf(heights[i] ?? 0), 0);
        });
      }
    }
  });
  it('lets a thread leave the curve where the curve was at that height', () => {
    const startOf = (power_W: number): number => {
      const { loose } = layThreads([{ power_W, joined: false }], rising, places, look);
      return Number(/[\d.]+/.exec(loose[0] ?? '')?.[0]);
    };
    // A running mean of six points lags by 2.5 points of 0.05 s.
    expect(startOf(0.2)).toBeCloseTo(places.xOf(50 + 2.5 * 0.05), 0);
    // Longer ago than any window: not where this slice came from.
    expect(startOf(0.1)).toBe(places.nowX);
  });
  it('draws no cord while nothing is joined, and nothing without threads', () => {
    expect(layThreads([], rising, places, look)).toEqual({ cord: null, loose: [] });
  });
});

describe('frayedStrands', () => {
  it('ends short of the plot, each strand elsewhere', () => {
    const ends = frayedStrands(100, 60, 16).map((path) => endOf(path.replace(/H[\d.]+/, '')));
    expect(new Set(ends.map(({ y }) => y)).size).toBe(ends.length);
    for (const { x } of ends) expect(x).toBeLessThan(100 + 6.5 * 16);
  });
});
