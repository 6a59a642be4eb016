import { describe, expect, it } from 'vitest';
import { fitSkeleton, layFigure, WEIGHT } from '../../../web/draw/numeral.ts';

const WEIGHTS = [WEIGHT.hairline, WEIGHT.set, WEIGHT.heavy];

describe('fitSkeleton', () => {
  // The formula and the skeletons are the project's own design; these are its worked numbers.
  it('keeps the outer edges of the box for every weight', () => {
    for (const weight of WEIGHTS) {
      const [x, y] = [weight / 2, weight / 2];
      expect(fitSkeleton('M10 10H50V90', weight)).toBe(`M${x} ${y}H${60 - x}V${100 - y}`);
    }
  });
  it('refits radii with their directions, and leaves flags alone', () => {
    expect(fitSkeleton('M10 30A20 20 0 0 1 50 30', 20)).toBe('M10 30A20 20 0 0 1 50 30');
    expect(fitSkeleton('A20 20 0 0 1 50 30', 4)).toBe('A28 24 0 0 1 58 26');
  });
  it('lets strokes run through the upper and lower edge', () => {
    expect(fitSkeleton('M33 -1V101', 12)).toBe('M33.6 -8V108');
  });
});

describe('layFigure', () => {
  it('advances each digit by 67 and ends at the edge of the last', () => {
    const { glyphs, width } = layFigure('243', [17, 17, 4]);
    expect(glyphs.map(({ x, weight }) => [x, weight])).toEqual([
      [0, 17],
      [67, 17],
      [134, 4],
    ]);
    expect(width).toBe(194);
  });
  it('makes a nine of a six', () => {
    const [six, nine] = layFigure('69', [12, 12]).glyphs;
    expect(nine?.path).toBe(six?.path);
    expect([six?.turned, nine?.turned]).toEqual([false, true]);
  });
  it('gives a point less room than a digit', () => {
    expect(layFigure('2.3', [4, 4, 4]).width).toBeLessThan(layFigure('213', [4, 4, 4]).width);
  });
  it('draws something for every character that a number can have', () => {
    for (const weight of WEIGHTS) {
      const { glyphs } = layFigure('0123456789.–−', Array<number>(13).fill(weight));
      expect(glyphs.filter(({ path }) => path.length < 6)).toEqual([]);
      expect(glyphs.map(({ path }) => path).join('')).not.toContain('NaN');
    }
  });
});
