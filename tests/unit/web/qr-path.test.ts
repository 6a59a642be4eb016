/** Codes are read back by a decoder that knows nothing of how they were made (jsqr). */
import { createRequire } from 'node:module';
import { describe, expect, it } from 'vitest';
import { qrPath, QUIET_ZONE } from '../../../web/draw/qr-path.ts';

/** A CommonJS module, whose types speak of another. */
const jsQR = createRequire(import.meta.url)('jsqr') as typeof import('jsqr').default;

const PIXELS = 6;

/** The path drawn dark on light, as the page does it: RGBA. */
function draw(text: string): { pixels: Uint8ClampedArray; width: number; dark: Set<string> } {
  const { d, size } = qrPath(text);
  const width = size * PIXELS;
  const pixels = new Uint8ClampedArray(4 * width * width).fill(255);
  const dark = new Set<string>();
  for (const [, x, y] of d.matchAll(/M(\d+) (\d+)h1v1h-1z/g)) {
    dark.add(`${x} ${y}`);
    for (let i = 0; i < PIXELS * PIXELS; i++) {
      const px = Number(x) * PIXELS + (i % PIXELS);
      const py = Number(y) * PIXELS + Math.floor(i / PIXELS);
      pixels.fill(0, 4 * (py * width + px), 4 * (py * width + px) + 3);
    }
  }
  return { pixels, width, dark };
}

describe('a picture code', () => {
  it.each([
    'http://192.168.178.123:4680/follow',
    'http://10.0.0.5:4680/room',
    'http://[fd00::2]:4680/follow',
    'http://192.168.178.123:4680/follow#pass=wTdQ7-LqWHmzIQChYyrbdw',
  ])('says what it was made of: %s', (text) => {
    const { pixels, width } = draw(text);
    expect(jsQR(pixels, width, width)?.data).toBe(text);
  });

  // ISO/IEC 18004, 6.3.8 (from memory): four light modules on every side.
  it('keeps four modules clear all round', () => {
    const { size } = qrPath('http://10.0.0.5:4680/room');
    const { dark } = draw('http://10.0.0.5:4680/room');
    const places = [...dark].flatMap((place) => place.split(' ').map(Number));
    expect(QUIET_ZONE).toBe(4);
    expect(Math.min(...places)).toBe(4);
    expect(Math.max(...places)).toBe(size - 5);
  });
});
