/**
 * Power spectrum of a stretch by averaging over segments that overlap by half, each with its mean
 * taken off and in Hann's window (P. D. Welch, IEEE Trans. Audio Electroacoust. 15 (1967) 70; from
 * memory). So a line may wander a little from segment to segment, and noise averages out.
 */
import { transform } from './fourier.ts';

export interface Spectrum {
  /** Of each bin from 0 to half the segment: squared amplitude of a sinusoid in its middle, V². */
  readonly powers: Float64Array;
  /** Samples of a segment, a power of two. */
  readonly size: number;
  /** As many segments that did not overlap would scatter as these do. */
  readonly independent: number;
}

/** Two segments that overlap by half have powers whose correlation is this, for Hann's window. */
const OVERLAP_CORRELATION = 1 / 36;

/** @param size a power of two, no more than there are values */
export function averagedSpectrum(values: Float64Array, size: number): Spectrum {
  const powers = new Float64Array(size / 2 + 1);
  const window = new Float64Array(size);
  for (let k = 0; k < size; k++) window[k] = hann(k, size);
  const re = new Float64Array(size);
  const im = new Float64Array(size);
  const hop = size / 2;
  const count = Math.floor((values.length - size) / hop) + 1;
  // Two segments go through one transform, as its real and its imaginary part.
  for (let pair = 0; pair < count; pair += 2) {
    putSegment(re, values, pair * hop, window);
    if (pair + 1 < count) putSegment(im, values, (pair + 1) * hop, window);
    else im.fill(0);
    transform(re, im);
    addPowers(powers, re, im);
  }
  // Hann's window has a mean of one half, and half of a sinusoid lies at the negative frequency.
  const scale = (4 / size) ** 2 / count;
  for (let bin = 0; bin < powers.length; bin++) powers[bin]! *= scale;
  const independent = count / (1 + 2 * OVERLAP_CORRELATION * (1 - 1 / count));
  return { powers, size, independent };
}

/** A segment with its mean taken off, in its window. */
function putSegment(
  into: Float64Array,
  values: Float64Array,
  start: number,
  window: Float64Array,
): void {
  const size = into.length;
  let sum = 0;
  for (let k = 0; k < size; k++) sum += values[start + k]!;
  const mean = sum / size;
  for (let k = 0; k < size; k++) into[k] = (values[start + k]! - mean) * window[k]!;
}

/**
 * Of both segments together: with X and Y their transforms and Z = X + iY,
 * |X_k|² + |Y_k|² = (|Z_k|² + |Z_−k|²)/2.
 */
function addPowers(powers: Float64Array, re: Float64Array, im: Float64Array): void {
  const size = re.length;
  for (let bin = 0; bin < powers.length; bin++) {
    const mirror = (size - bin) % size;
    powers[bin]! +=
      (re[bin]! ** 2 + im[bin]! ** 2 + re[mirror]! ** 2 + im[mirror]! ** 2) / 2;
  }
}

function hann(k: number, size: number): number {
  return 0.5 - 0.5 * Math.cos((2 * Math.PI * k) / size);
}
