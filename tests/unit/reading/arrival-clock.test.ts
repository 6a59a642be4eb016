import { describe, expect, it } from 'vitest';
import { createArrivalClock, placeArrival } from '#core/reading/arrival-clock.ts';
import { createPeriodLearner } from '#core/reading/period.ts';

/** Stream times of lines that arrive in chunks of `lines`, the first at 1 s. */
function placeChunks(count: number, every_s: number, lines: (chunk: number) => number): number[] {
  const clock = createArrivalClock();
  const learner = createPeriodLearner();
  const times: number[] = [];
  for (let chunk = 0; chunk < count; chunk += 1) {
    for (let i = 0; i < lines(chunk); i += 1) {
      times.push(placeArrival(clock, learner, 1 + chunk * every_s, times.at(-1) ?? -Infinity));
    }
  }
  return times;
}

function stepsOf(times: readonly number[]): number[] {
  return times.slice(1).map((time_s, i) => time_s - (times[i] ?? Number.NaN));
}

describe('arrival as time', () => {
  it('stands as it is for lines that come one by one', () => {
    expect(placeChunks(5, 0.25, () => 1)).toEqual([1, 1.25, 1.5, 1.75, 2]);
  });

  it('is spread evenly over lines that come together, once the period is learnt', () => {
    const times = placeChunks(20, 0.05, () => 5);
    for (const step_s of stepsOf(times.slice(-40))) expect(step_s).toBeCloseTo(0.01, 9);
    expect(times.at(-1)).toBeCloseTo(1 + 19 * 0.05 + 0.04, 9);
  });

  it('always increases and never runs away from arrival, however uneven the chunks', () => {
    const sizes = [1, 9, 2, 5, 3, 17, 4, 7, 1, 1];
    const times = placeChunks(1000, 0.05, (chunk) => sizes[chunk % sizes.length] ?? 1);
    for (const step_s of stepsOf(times)) expect(step_s).toBeGreaterThan(0);
    expect(Math.abs((times.at(-1) ?? 0) - (1 + 999 * 0.05))).toBeLessThan(0.25);
  });

  it('comes back to arrival after a stall', () => {
    const times = placeChunks(1000, 0.05, (chunk) => (chunk === 500 ? 200 : 5));
    for (const step_s of stepsOf(times)) expect(step_s).toBeGreaterThan(0);
    expect(times.at(-5)).toBeCloseTo(1 + 999 * 0.05, 6);
  });
});
