/**
 * Discrete Fourier transform of as many numbers as a power of two, in place (J. W. Cooley,
 * J. W. Tukey, Math. Comp. 19 (1965) 297; from memory).
 */

/** @param re, im real and imaginary parts, overwritten; equally long, a power of two */
export function transform(re: Float64Array, im: Float64Array): void {
  const n = re.length;
  reverseBits(re, im);
  for (let size = 2; size <= n; size *= 2) {
    const half = size / 2;
    const { cosines, sines } = wavesOf(size);
    for (let start = 0; start < n; start += size) {
      for (let k = 0; k < half; k++) {
        const a = start + k;
        const b = a + half;
        const c = cosines[k]!;
        const s = sines[k]!;
        const real = re[b]! * c + im[b]! * s;
        const imaginary = im[b]! * c - re[b]! * s;
        re[b] = re[a]! - real;
        im[b] = im[a]! - imaginary;
        re[a]! += real;
        im[a]! += imaginary;
      }
    }
  }
}

function reverseBits(re: Float64Array, im: Float64Array): void {
  const n = re.length;
  for (let i = 1, j = 0; i < n; i++) {
    let bit = n >> 1;
    for (; (j & bit) !== 0; bit >>= 1) j ^= bit;
    j ^= bit;
    if (i >= j) continue;
    exchange(re, i, j);
    exchange(im, i, j);
  }
}

function exchange(values: Float64Array, i: number, j: number): void {
  const value = values[i]!;
  values[i] = values[j]!;
  values[j] = value;
}

interface Waves {
  readonly cosines: Float64Array;
  readonly sines: Float64Array;
}

/** Half a turn of each size that was needed: a dozen sizes at most. */
const WAVES = new Map<number, Waves>();

function wavesOf(size: number): Waves {
  const known = WAVES.get(size);
  if (known !== undefined) return known;
  const angle = (k: number): number => (2 * Math.PI * k) / size;
  const made = {
    cosines: Float64Array.from({ length: size / 2 }, (_, k) => Math.cos(angle(k))),
    sines: Float64Array.from({ length: size / 2 }, (_, k) => Math.sin(angle(k))),
  };
  WAVES.set(size, made);
  return made;
}
