import { describe, expect, it } from 'vitest';
import { stripAxisOf } from '../../../web/draw/strip-axis.ts';

const VOLTS = { largest: 3.8, usual: 2 };

describe('the axis of a strip', () => {
  it('holds what is read', () => {
    const { low, high } = stripAxisOf({ least: 0, most: 3.7 }, VOLTS);
    expect([low, high]).toEqual([0, 4]);
  });

  it('does not blow up the noise of a rig at rest', () => {
    expect(stripAxisOf({ least: -0.002, most: 0.002 }, VOLTS)).toMatchObject({ low: 0, high: 0.4 });
    expect(stripAxisOf({ least: 0, most: 0.002 }, { largest: 0.002, usual: 2 }).high).toBeGreaterThanOrEqual(0.05);
  });

  it('of a small rig fills with what that rig gives', () => {
    expect(stripAxisOf({ least: 0, most: 0.18 }, { largest: 0.19, usual: 2 }).high).toBe(0.2);
  });

  it('goes below zero for readings that do', () => {
    expect(stripAxisOf({ least: -2.4, most: 0 }, { largest: 2.4, usual: 2 }).low).toBeLessThanOrEqual(-2.4);
  });

  it('is the usual one while there is nothing to show', () => {
    expect(stripAxisOf(null, { largest: 0, usual: 2 })).toMatchObject({ low: 0, high: 2 });
  });
});
