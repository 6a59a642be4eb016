/** Cosine transforms of short stretches of readings, and what is done to the stretches first. */

/** Averages neighbours until no more than `most` remain. */
export function condense(values: ArrayLike<number>, most: number): ArrayLike<number> {
  const width = Math.ceil(values.length / most);
  if (width <= 1) return values;
  const means = new Array<number>(Math.floor(values.length / width));
  for (let i = 0; i < means.length; i++) {
    let mean = 0;
    for (let k = i * width; k < (i + 1) * width; k++) mean += values[k]! / width;
    means[i] = mean;
  }
  return means;
}

/** Of each length: its cosines are needed again and again. */
const COSINES = new Map<number, Float64Array>();
const SINES = new Map<number, Float64Array>();

/** For the first half of the values: element i·(n−1) + j−1 is cos(πj(i + ½)/n). */
function cosinesOf(n: number): Float64Array {
  const known = COSINES.get(n);
  if (known !== undefined) return known;
  const half = (n + 1) >> 1;
  const cosines = new Float64Array(half * (n - 1));
  for (let i = 0; i < half; i++) {
    for (let j = 1; j < n; j++) {
      cosines[i * (n - 1) + j - 1] = Math.cos((Math.PI * j * (i + 0.5)) / n);
    }
  }
  COSINES.set(n, cosines);
  return cosines;
}

/** sin(πj/(2n)), half of a period of the jth cosine from one value to the next: j = 1 … n − 1. */
export function sinesOf(n: number): Float64Array {
  const known = SINES.get(n);
  if (known !== undefined) return known;
  const sines = new Float64Array(n - 1);
  for (let j = 1; j < n; j++) sines[j - 1] = Math.sin((Math.PI * j) / (2 * n));
  SINES.set(n, sines);
  return sines;
}

/**
 * Squared cosine coefficients j = 1 … `most`, into the beginning of `powers`; white noise gives
 * its variance in each. Seen from the other end odd cosines change their sign and even ones do not:
 * two values share a cosine.
 */
export function cosinePowers(values: ArrayLike<number>, most: number, powers: Float64Array): void {
  const n = values.length;
  const cosines = cosinesOf(n);
  powers.fill(0, 0, most);
  for (let i = 0; 2 * i < n; i++) {
    const one = values[i]!;
    const other = 2 * i === n - 1 ? 0 : values[n - 1 - i]!;
    const odd = one - other;
    const even = one + other;
    const row = i * (n - 1);
    let j = 0;
    for (; j + 1 < most; j += 2) {
      powers[j]! += odd * cosines[row + j]!;
      powers[j + 1]! += even * cosines[row + j + 1]!;
    }
    if (j < most) powers[j]! += odd * cosines[row + j]!;
  }
  for (let j = 0; j < most; j++) powers[j] = (2 / n) * powers[j]! * powers[j]!;
}

/** Removes the least-squares line. */
export function detrend(values: ArrayLike<number>): number[] {
  const n = values.length;
  const middle = (n - 1) / 2;
  let sum = 0;
  let weighted = 0;
  for (let i = 0; i < n; i++) {
    sum += values[i]!;
    weighted += (i - middle) * values[i]!;
  }
  const mean = sum / n;
  const slope = n > 1 ? (weighted * 12) / (n * (n * n - 1)) : 0;
  const rest = new Array<number>(n);
  for (let i = 0; i < n; i++) rest[i] = values[i]! - mean - slope * (i - middle);
  return rest;
}
