import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { niceAxis, pixelOf } from '../../../web/draw/axis.ts';
import { powerAxisOf } from '../../../web/draw/power-axis.ts';
import { trialOf } from './fixtures.ts';

describe('niceAxis', () => {
  it.each([
    [0.259, [0, 0.1, 0.2, 0.3]],
    [0.3, [0, 0.1, 0.2, 0.3]],
    [0.41, [0, 0.2, 0.4, 0.6]],
    [850, [0, 500, 1000]],
    [4.1, [0, 2, 4, 6]],
    [1, [0, 0.5, 1]],
  ])('up to %d has the lines %j', (most, ticks) => {
    expect(niceAxis(0, most, 1).ticks).toEqual(ticks);
  });
  it('uses the fallback while there is nothing positive', () => {
    expect(niceAxis(0, 0, 0.2).high).toBe(0.2);
    expect(niceAxis(0, -3, 2).high).toBeGreaterThanOrEqual(2);
  });
  it('reaches below zero for negative values', () => {
    const axis = niceAxis(-1.7, 2, 1);
    expect(axis.low).toBeLessThanOrEqual(-1.7);
    expect(axis.ticks).toContain(0);
  });
  it('holds all values on few round lines that include zero', () => {
    const least = fc.double({ min: -1e4, max: 0, noNaN: true });
    const most = fc.double({ min: 1e-6, max: 1e4, noNaN: true });
    fc.assert(
      fc.property(least, most, (low, high) => {
        const axis = niceAxis(low, high, 1);
        const invisible = 1e-8 * (high - low);
        expect(axis.high).toBeGreaterThanOrEqual(high - invisible);
        expect(axis.low).toBeLessThanOrEqual(low + invisible);
        expect(axis.ticks).toContain(0);
        expect(axis.ticks.length).toBeLessThanOrEqual(7);
        expect(axis.ticks.length).toBeGreaterThanOrEqual(2);
      }),
    );
  });
});

describe('pixelOf', () => {
  it('runs from bottom to top', () => {
    const axis = niceAxis(0, 300, 1);
    expect([0, 150, 300].map((value) => pixelOf(value, axis, 10, 210))).toEqual([210, 110, 10]);
  });
});

describe('the power axis', () => {
  const NOISE = { least: -2e-7, most: 4e-7 };
  it('is not filled by noise at rest before anything has turned', () => {
    const still = trialOf(1, 0, { rotorStill: true });
    for (const trials of [[], [still]]) {
      expect(powerAxisOf(trials, NOISE)).toMatchObject({ low: 0, high: 0.2 });
    }
  });
  it('suits a rig of some microwatts once it has turned, and readings as they come', () => {
    expect(powerAxisOf([trialOf(1, 0.02)], NOISE).high).toBeLessThan(5e-5);
    expect(powerAxisOf([], { least: 0, most: 0.25 }).high).toBe(0.3);
    expect(powerAxisOf([], { least: -0.2, most: 0 }).low).toBeLessThanOrEqual(-0.2);
  });
});
