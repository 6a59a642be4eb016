import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { spreadLabels } from '../../../web/draw/spread-labels.ts';

const ENDS = { left: 0, right: 1000 };

describe('names along an axis', () => {
  it('stay where they are while they do not touch', () => {
    expect(spreadLabels([100, 200, 300], [50, 50, 50], ENDS)).toEqual([100, 200, 300]);
  });

  it('share what they lack evenly', () => {
    expect(spreadLabels([100, 110], [50, 50], ENDS)).toEqual([80, 130]);
  });

  it('keep within the ends', () => {
    expect(spreadLabels([0, 1000], [40, 60], ENDS)).toEqual([20, 970]);
  });

  it('never lie over one another, keep their order, and none moves that need not', () => {
    const names = fc
      .array(fc.record({ at: fc.integer({ min: 0, max: 1000 }), width: fc.integer({ min: 5, max: 60 }) }), {
        minLength: 1,
        maxLength: 15,
      })
      .map((all) => all.sort((a, b) => a.at - b.at));
    fc.assert(
      fc.property(names, (all) => {
        const widths = all.map(({ width }) => width);
        const middles = spreadLabels(all.map(({ at }) => at), widths, ENDS);
        const edges = middles.map((x, i) => [x - (widths[i] ?? 0) / 2, x + (widths[i] ?? 0) / 2] as const);
        edges.forEach(([left, right], i) => {
          expect(left).toBeGreaterThanOrEqual(-1e-6);
          expect(right).toBeLessThanOrEqual(1000 + 1e-6);
          expect(left).toBeGreaterThanOrEqual((edges[i - 1]?.[1] ?? 0) - 1e-6);
        });
      }),
    );
  });
});
