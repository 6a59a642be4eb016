/** The curve that is drawn through the levels. */
import { describe, expect, it } from 'vitest';
import type { ComparedTrial } from '#core/experiment/comparison/comparison-schema.ts';
import { parabolaThrough } from '#core/experiment/comparison/curve.ts';

const trialsAt = (points: readonly (readonly [level: number | string, response: number])[]) =>
  points.map(([level, response], order): ComparedTrial => {
    return { level, response, order, didNotTurn: false, block: null, second: null, standardUncertainty: null };
  });

/** D. C. Montgomery, kraft paper: hardwood in per cent, strength in psi (data from memory). */
const X = [1, 1.5, 2, 3, 4, 4.5, 5, 5.5, 6, 6.5, 7, 8, 9, 10, 11, 12, 13, 14, 15];
const Y = [6.3, 11.1, 20, 24, 26.1, 30, 33.8, 34, 38.1, 39.9, 42, 46.1, 53.1, 52, 52.5, 48, 42.8, 27.8, 21.9];

describe('the parabola through the trials', () => {
  it('is that of a published example: −6.674 + 11.764x − 0.6345x² (R 4.2.2, lm)', () => {
    const curve = parabolaThrough(trialsAt(X.map((x, i) => [x, Y[i]!])))!;
    for (const { at, mean } of curve) {
      expect(mean).toBeCloseTo(-6.67419161 + 11.76400567 * at - 0.63454917 * at ** 2, 5);
    }
    expect([curve[0]!.at, curve.at(-1)!.at]).toEqual([1, 15]);
    // s² = 19.539893, t(.975, 16) = 2.119905 (R); leverage of x = 8 by its definition.
    const middle = curve.find(({ at }) => Math.abs(at - 8) < 1e-9)!;
    expect(middle.high - middle.mean).toBeCloseTo(middle.mean - middle.low, 9);
    expect((middle.high - middle.mean) / (2.119905 * Math.sqrt(19.539893))).toBeCloseTo(
      Math.sqrt(leverageAt(8)),
      5,
    );
  });

  it('is none where a parabola is wrong, or nothing could show it', () => {
    const steps = [0, 0, 10, 10, 0, 0].flatMap((y, i) => [[i, y] as const, [i, y + 0.1] as const]);
    expect(parabolaThrough(trialsAt(steps))).toBeNull();
    expect(parabolaThrough(trialsAt([[1, 1], [2, 3], [3, 2], [1, 1.1]]))).toBeNull();
    expect(parabolaThrough(trialsAt([['a', 1], ['b', 3], ['c', 2], ['d', 1]]))).toBeNull();
  });
});

/** 1/n + … by the normal equations of x centred at 8, independent of the fit's own QR. */
function leverageAt(at: number): number {
  const rows = X.map((x) => [1, x - at, (x - at) ** 2]);
  const m = [0, 1, 2].map((i) => [0, 1, 2].map((j) => rows.reduce((s, r) => s + r[i]! * r[j]!, 0)));
  const [a, b, c] = m as [number[], number[], number[]];
  const minor = b[1]! * c[2]! - b[2]! * c[1]!;
  const det =
    a[0]! * minor - a[1]! * (b[0]! * c[2]! - b[2]! * c[0]!) + a[2]! * (b[0]! * c[1]! - b[1]! * c[0]!);
  return minor / det;
}
