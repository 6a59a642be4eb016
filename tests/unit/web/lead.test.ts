/** The cord of the pages that draw no curve. */
import { describe, expect, it } from 'vitest';
import { layLead } from '../../../web/draw/lead.ts';

/** The pages' own places on a phone, where the cord goes round the left edge. */
const PHONE = {
  fromX: 398,
  bendX: 96,
  runY: 17,
  cordWidth: 15,
  endWidth: 7,
  looseRoom: 20,
  roundX: 14,
  clearX: 40,
  floorY: 360,
  yOf: (power_W: number) => 360 - 700 * power_W,
};

function pointsOf(outline: string | null): { x: number; y: number }[] {
  return [...(outline ?? '').matchAll(/(-?[\d.]+) (-?[\d.]+)/g)].map(([, x, y]) => ({ x: Number(x), y: Number(y) }));
}

describe('a cord round the left edge', () => {
  it.each([40, 51, 96, 200])('ends at a slot at %d, without running past it and back', (slotX) => {
    const threads = Array.from({ length: 24 }, () => ({ power_W: 0.2, joined: true }));
    const look = { level_W: 0.2, gait: 'straight', phase: 0 } as const;
    const points = pointsOf(layLead(threads, { ...PHONE, slotX }, look).cord);
    const endY = PHONE.yOf(0.2);
    const low = points.filter(({ y }) => y > (PHONE.runY + endY) / 2);
    const furthest = Math.max(...low.map(({ x }) => x));
    expect(Math.abs(furthest - slotX)).toBeLessThan(1);
    // Flush with the dash that stands there.
    const atSlot = low.filter(({ x }) => Math.abs(x - slotX) < 1);
    for (const { y } of atSlot) expect(Math.abs(Math.abs(y - endY) - PHONE.endWidth / 2)).toBeLessThan(1);
  });
});
