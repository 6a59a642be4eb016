import { describe, expect, it } from 'vitest';
import { watchSleep } from '../../server/sleep-watch.ts';

function clocks() {
  let monotonic_s = 100;
  let wall_s = 1_800_000_000;
  const slept_s = watchSleep({ monotonic_s: () => monotonic_s, wall_s: () => wall_s });
  const pass = (onBoth_s: number, onWallOnly_s = 0): number => {
    monotonic_s += onBoth_s;
    wall_s += onBoth_s + onWallOnly_s;
    return slept_s();
  };
  return pass;
}

describe('noticing that the computer slept', () => {
  it('hears nothing of time that both clocks know, however long', () => {
    const pass = clocks();
    expect([0, 0.5, 3600].map((time_s) => pass(time_s))).toEqual([0, 0, 0]);
  });

  it('says once how long the monotonic clock stood still', () => {
    const pass = clocks();
    expect(pass(0.3, 600)).toBeCloseTo(600, 3);
    expect(pass(0.5)).toBe(0);
  });

  it('takes no small setting of the wall clock for sleep, nor one backwards', () => {
    const pass = clocks();
    expect(pass(0.5, 1.5)).toBe(0);
    expect(pass(0.5, -3600)).toBe(0);
    expect(pass(0.5, 5)).toBeCloseTo(5, 3);
  });
});
