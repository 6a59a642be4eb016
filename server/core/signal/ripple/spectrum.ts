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
  const window = Float64Array.from({ length: size }, (_, k) => hann(k, size));
  const re = new Float64Array(size);
  const im = new Float64Array(size);
  let count = 0;
  for (let start = 0; start + size <= values.length; start += size / 2) {
    const segment = values.subarray(start, start + size);
    const mean = segment.reduce((sum, one) => sum + one, 0) / size;
    for (let k = 0; k < size; k++) re[k] = (segment[k]! - mean) * window[k]!;
    im.fill(0);
    transform(re, im);
    for (let bin = 0; bin < powers.length; bin++) powers[bin]! += re[bin]! ** 2 + im[bin]! ** 2;
    count += 1;
  }
  // Hann's window has a mean of one half, and half of a sinusoid lies at the negative frequency.
  const scale = (4 / size) ** 2 / count;
  for (let bin = 0; bin < powers.length; bin++) powers[bin]! *= scale;
  const independent = count / (1 + 2 * OVERLAP_CORRELATION * (1 - 1 / count));
  return { powers, size, independent };
}

function hann(k: number, size: number): number {
  return 0.5 - 0.5 * Math.cos((2 * Math.PI * k) / size);
}
