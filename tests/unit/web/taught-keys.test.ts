import { describe, expect, it } from 'vitest';
import { dashShape, DASH_FORMS } from '../../../web/draw/dash-shape.ts';
import { tallyPath } from '../../../web/draw/tally.ts';
import { keyName, readTaught, withTaught } from '../../../web/model/taught-keys.ts';

describe('taught keys', () => {
  it('are read as they were kept, and nothing else is', () => {
    expect(readTaught('{"log":"PageDown","again":"b","dance":"x"}')).toEqual({ log: 'PageDown', again: 'b' });
    for (const kept of [null, '', '{', '[]', '7', '{"log":5}', '{"log":""}']) {
      expect(readTaught(kept)).toEqual({});
    }
  });
  it('do one thing each', () => {
    const taught = withTaught(withTaught({}, 'log', 'F5'), 'strike', 'F5');
    expect(taught).toEqual({ strike: 'F5' });
    expect(withTaught(taught, 'strike', null)).toEqual({});
  });
  it('have names', () => {
    expect(['PageUp', 'PageDown', 'b', '.', 'F5', ' '].map(keyName)).toEqual([
      'Page Up',
      'Page Down',
      'B',
      '.',
      'F5',
      'space',
    ]);
  });
});

describe('a tally', () => {
  it('has a stroke for each vote, each fifth across the four before it', () => {
    for (const count of [0, 1, 4, 5, 12]) {
      const { path } = tallyPath(count);
      expect(path.split('M').length - 1).toBe(count);
      expect(path.split('L').length - 1).toBe(Math.floor(count / 5));
    }
  });
});

describe('the forms of a dash', () => {
  it('differ, and keep within its box', () => {
    const box = { left: 10, top: 20, width: 24, height: 8 };
    const forms = Array.from({ length: DASH_FORMS }, (_, n) => dashShape(n, box));
    expect(new Set(forms).size).toBe(DASH_FORMS);
    for (const form of forms) {
      for (const [, x, y, w, h] of form.matchAll(/M([\d.]+) ([\d.]+)h([\d.]+)v([\d.]+)/g)) {
        expect(Number(x)).toBeGreaterThanOrEqual(10);
        expect(Number(x) + Number(w)).toBeLessThanOrEqual(34.01);
        expect(Number(y)).toBeGreaterThanOrEqual(20);
        expect(Number(y) + Number(h)).toBeLessThanOrEqual(28.01);
      }
    }
  });
});
