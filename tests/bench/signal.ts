/** Lines of a 1 kHz board for the benchmarks: plateaus of 20 s with turbulence, spin-ups between. */
import { createRandom, normal } from '#core/virtual-rig/random.ts';

export const RATE_HZ = 1000;
const PLATEAU_S = 20;
const SPIN_UP_S = 1;

/**
 * Plain lines as bytes, a header first, the same for the same arguments.
 * @param timed with the board's own time as first column
 */
export function plainLines(count: number, timed = true): Uint8Array {
  const random = createRandom(20260101);
  const parts = [`${timed ? 'time_us,' : ''}voltage_V,current_mA,wind_mps\n`];
  let noise = 0;
  for (let index = 0; index < count; index += 1) {
    noise = 0.995 * noise + 0.1 * normal(random);
    const phase_s = (index / RATE_HZ) % PLATEAU_S;
    const level = (1 - Math.exp(-phase_s / SPIN_UP_S)) * (1 + 0.01 * noise);
    const voltage_V = 2.4 * level;
    const time = timed ? `${(index * (1e6 / RATE_HZ)) % 2 ** 32},` : '';
    parts.push(
      `${time}${voltage_V.toFixed(4)},${(110 * level).toFixed(3)},${(4 + 0.02 * noise).toFixed(3)}\n`,
    );
  }
  return new TextEncoder().encode(parts.join(''));
}

/** In pieces as they come from a port that is read when a buffer is full. */
export function* chunksOf(bytes: Uint8Array, size: number): Generator<Uint8Array> {
  for (let from = 0; from < bytes.length; from += size) yield bytes.subarray(from, from + size);
}
