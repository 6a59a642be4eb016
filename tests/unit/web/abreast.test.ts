import { describe, expect, it } from 'vitest';
import { abreast } from '../../../web/draw/abreast.ts';

const ROOM = { width: 24, height: 8, gap: 2 };

describe('dashes at one place', () => {
  it('keep their full width where their heights differ enough, and at other places', () => {
    const dashes = abreast([{ x: 50, y: 10 }, { x: 50, y: 20 }, { x: 90, y: 10 }], ROOM);
    expect(dashes).toEqual([
      { left: 38, width: 24 },
      { left: 38, width: 24 },
      { left: 78, width: 24 },
    ]);
  });
  it('stand side by side where they would cover one another, and take the same room', () => {
    const dashes = abreast([{ x: 50, y: 10 }, { x: 50, y: 10 }, { x: 50, y: 10 }], ROOM);
    expect(dashes.map(({ width }) => width)).toEqual([20 / 3, 20 / 3, 20 / 3]);
    // The newest leftmost.
    expect(dashes[2]?.left).toBe(38);
    expect(dashes[0]?.left).toBeCloseTo(62 - 20 / 3, 9);
  });
  it('share a column where one is far enough below the other', () => {
    const dashes = abreast([{ x: 50, y: 10 }, { x: 50, y: 21 }, { x: 50, y: 15 }], ROOM);
    expect(dashes.map(({ width }) => width)).toEqual([11, 11, 11]);
    expect(dashes.map(({ left }) => left)).toEqual([51, 51, 38]);
  });
  it('no two of any sixty heights overlap, up to five side by side', () => {
    const heights = Array.from({ length: 60 }, (_, i) => ({ x: 50, y: (i * 37) % 173 }));
    const dashes = abreast(heights, ROOM);
    for (const [i, a] of dashes.entries()) {
      for (const [j, b] of dashes.entries()) {
        const isLevel = Math.abs((heights[i]?.y ?? 0) - (heights[j]?.y ?? 0)) < ROOM.height;
        const isSide = a.left + a.width <= b.left + 1e-9 || b.left + b.width <= a.left + 1e-9;
        expect(i === j || !isLevel || isSide).toBe(true);
      }
    }
  });
  it('share columns beyond five', () => {
    const dashes = abreast(Array.from({ length: 7 }, () => ({ x: 50, y: 10 })), ROOM);
    expect(new Set(dashes.map(({ left }) => left)).size).toBe(5);
  });
});
