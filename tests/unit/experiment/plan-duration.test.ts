import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  DEFAULT_RUN_S,
  durationOf,
  roundsThatFit,
  timeUntil_s,
  usualRun_s,
} from '#core/experiment/plan/duration.ts';
import { runsOf } from '#core/experiment/plan/runs.ts';
import { anglePlan } from '#core/experiment/plan/templates.ts';
import { plans } from './plan-arbitrary.ts';

const at = (hours: number, minutes: number) => (hours * 60 + minutes) * 60;

describe('the usual time of a run', () => {
  it('is the median, from three times on', () => {
    expect(usualRun_s([])).toBeNull();
    expect(usualRun_s([60, 70])).toBeNull();
    expect(usualRun_s([60, 70, 64])).toBe(64);
    expect(usualRun_s([60, 70, 64, 68])).toBe(66);
  });

  it('is not moved by a break', () => expect(usualRun_s([60, 62, 900, 61, 63])).toBe(62));
});

describe('the time that the rest takes', () => {
  it('says whether it was measured', () => {
    expect(durationOf(10, 62)).toEqual({ perRun_s: 62, all_s: 620, basis: 'measured' });
    expect(durationOf(10, null)).toEqual({
      perRun_s: DEFAULT_RUN_S,
      all_s: 10 * DEFAULT_RUN_S,
      basis: 'default',
    });
  });
});

describe('the time until the bell', () => {
  it('is negative once it has rung', () => {
    expect(timeUntil_s('14:45', at(14, 0))).toBe(45 * 60);
    expect(timeUntil_s('14:45', at(14, 50))).toBe(-5 * 60);
  });

  it('goes over midnight', () => {
    expect(timeUntil_s('00:15', at(23, 50))).toBe(25 * 60);
    expect(timeUntil_s('23:50', at(0, 15))).toBe(-25 * 60);
  });
});

describe('rounds that fit', () => {
  // Three rounds of five levels.
  const plan = { ...anglePlan(3), finishBy: '10:00' };
  const runs = runsOf(plan);
  const fit = (left: number, minutes: number) =>
    roundsThatFit(plan, runs.slice(runs.length - left), {
      usual_s: 60,
      now_s: at(10, 0) - minutes * 60,
    });

  it('are whole ones', () => {
    expect(fit(15, 15)).toEqual({ rounds: 3, spare_s: 0 });
    expect(fit(15, 14.9)).toEqual({ rounds: 2, spare_s: -6 });
    expect(fit(15, 20)).toEqual({ rounds: 3, spare_s: 300 });
    expect(fit(15, 4)?.rounds).toBe(0);
    expect(fit(15, -5)?.rounds).toBe(0);
  });

  it('count those that are done', () => {
    expect(fit(7, 2)?.rounds).toBe(2);
    expect(fit(0, -5)).toEqual({ rounds: 3, spare_s: -300 });
  });

  it('are not asked for without a bell', () =>
    expect(roundsThatFit({ ...plan, finishBy: null }, runs, { usual_s: 60, now_s: 0 })).toBeNull());

  it('are never fewer with more time', () => {
    const ever = fc.integer({ min: 0, max: 40_000 });
    fc.assert(
      fc.property(plans, ever, ever, (any, a, b) => {
        const withBell = { ...any, finishBy: '12:00' };
        const of = (time_s: number) =>
          roundsThatFit(withBell, runsOf(any), { usual_s: 75, now_s: at(12, 0) - time_s })?.rounds ?? -1;
        const [few, many] = [of(Math.min(a, b)), of(Math.max(a, b))];
        expect(few).toBeGreaterThanOrEqual(0);
        expect(few).toBeLessThanOrEqual(many);
        expect(many).toBeLessThanOrEqual(any.rounds);
      }),
    );
  });
});
