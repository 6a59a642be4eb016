import { describe, expect, it } from 'vitest';
import { acrossByNumber, acrossByWind, markFormOf } from '../../../web/draw/trial-marks.ts';
import { acrossInOrder } from '../../../web/draw/order-marks.ts';
import { trialOf } from './fixtures.ts';

const ground = { left: 100, right: 500, rem: 16 };

describe('by number', () => {
  it('places trials in order, inside the ground, and the slot after them', () => {
    const trials = [1, 2, 3].map((id) => trialOf(id, 100 * id));
    const { marks, slotX, labels } = acrossByNumber(trials, 4, ground);
    const xs = [...marks.map(({ x }) => x), slotX];
    expect([...xs].sort((a, b) => a - b)).toEqual(xs);
    for (const x of xs) expect(x > ground.left && x < ground.right).toBe(true);
    expect(labels.filter(({ isNow }) => isNow).map(({ text }) => text)).toEqual(['4']);
  });
  it('keeps the newest when there is no room for all', () => {
    const trials = Array.from({ length: 40 }, (_, i) => trialOf(i + 1, 100));
    const { marks } = acrossByNumber(trials, 41, ground);
    expect(marks.at(-1)?.trial.id).toBe(40);
    expect(marks.length).toBeLessThan(20);
    const gaps = marks.slice(1).map(({ x }, i) => x - (marks[i]?.x ?? 0));
    for (const gap of gaps) expect(gap).toBeGreaterThanOrEqual(1.5 * ground.rem);
  });
  it('puts the trial that is logged and still open where its slot was', () => {
    const { marks, slotX } = acrossByNumber([trialOf(1, 100), trialOf(2, 200)], 2, ground);
    expect(marks[1]?.x).toBe(slotX);
  });
});

describe('against wind', () => {
  it('places trials by their wind and leaves out those without', () => {
    const wind = (value: number) => ({ value, standardUncertainty: 0.05, degreesOfFreedom: 1e6 });
    const trials = [
      trialOf(1, 100, { windSpeed_mps: wind(2) }),
      trialOf(2, 200, { windSpeed_mps: wind(4) }),
      trialOf(3, 200, { windSpeed_mps: null }),
    ];
    const { marks, slotX, labels } = acrossByWind(trials, 3, ground);
    expect(marks.map(({ trial }) => trial.id)).toEqual([1, 2]);
    expect(((marks[0]?.x ?? 0) + (marks[1]?.x ?? 0)) / 2).toBeCloseTo(slotX, 6);
    expect(labels.at(-1)?.text).toContain('m/s');
    expect(marks[0]?.halfAcross).toBeGreaterThan(0);
    const means = [{ wind_mps: 2, power_W: 0.1, halfPower_W: 0.01, halfCommon_W: 0.02 }];
    expect(acrossByWind(trials, 3, ground, means).means[0]).toMatchObject({ x: marks[0]?.x, halfPower_W: 0.01, halfCommon_W: 0.02 });
  });
});

describe('in their order', () => {
  it.each([1, 7, 40, 300])('keeps all of %d trials, none over another, numbers with room between', (count) => {
    const trials = Array.from({ length: count }, (_, i) => trialOf(i + 1, 100));
    const { marks, labels, dash } = acrossInOrder(trials, ground);
    expect(marks).toHaveLength(count);
    const gaps = (places: readonly { x: number }[]) => places.slice(1).map(({ x }, i) => x - places[i]!.x);
    for (const gap of gaps(marks)) expect(gap).toBeGreaterThan(dash * ground.rem);
    for (const gap of gaps(labels)) expect(gap).toBeGreaterThanOrEqual(1.8 * ground.rem);
    for (const { x } of [...marks, ...labels]) expect(x > ground.left && x < ground.right).toBe(true);
  });
});

describe('markFormOf', () => {
  it('has a form for each kind of trial', () => {
    expect(markFormOf(trialOf(1, 100))).toBe('good');
    expect(markFormOf(trialOf(1, 100, { struck: true, recorded: false }))).toBe('struck');
    expect(markFormOf(trialOf(1, 100, { recorded: false }))).toBe('cut');
    expect(markFormOf(trialOf(1, 0, { rotorStill: true }))).toBe('notTurning');
  });
});
