/**
 * A seeded source of random numbers: xoshiro128** 1.1, its state filled by SplitMix64.
 * The same seed gives the same numbers on every machine.
 *
 * Blackman and Vigna, "Scrambled linear pseudorandom number generators", ACM Transactions on
 * Mathematical Software 47(4), 2021, https://prng.di.unimi.it/xoshiro128starstar.c
 */

/** A generator's state; every draw changes it. */
export interface Random {
  readonly words: Uint32Array;
  /** The second normal deviate of the last pair, not handed out yet. */
  spareNormal: number | null;
}

const MASK_64 = (1n << 64n) - 1n;

/** The first `count` outputs of SplitMix64 for this seed. */
export function splitMix64(seed: bigint, count: number): bigint[] {
  let state = seed & MASK_64;
  return Array.from({ length: count }, () => {
    state = (state + 0x9e3779b97f4a7c15n) & MASK_64;
    let z = state;
    z = ((z ^ (z >> 30n)) * 0xbf58476d1ce4e5b9n) & MASK_64;
    z = ((z ^ (z >> 27n)) * 0x94d049bb133111ebn) & MASK_64;
    return z ^ (z >> 31n);
  });
}

/** A generator for `seed`, any safe integer. Different streams of one seed are independent. */
export function createRandom(seed: number, stream = 0): Random {
  if (!Number.isSafeInteger(seed) || !Number.isSafeInteger(stream)) {
    throw new RangeError(`a seed is a whole number, not ${seed} (stream ${stream})`);
  }
  const [base = 0n] = splitMix64(BigInt(seed), 1);
  const words = splitMix64(base ^ BigInt.asUintN(64, BigInt(stream)), 2).flatMap((output) => [
    Number(output & 0xffffffffn),
    Number(output >> 32n),
  ]);
  return { words: Uint32Array.from(words), spareNormal: null };
}

/** The next 32 random bits as an unsigned integer. */
export function nextUint32(random: Random): number {
  const s = random.words as unknown as [number, number, number, number];
  const scrambled = Math.imul(rotateLeft(Math.imul(s[1], 5), 7), 9) >>> 0;
  const shifted = s[1] << 9;
  s[2] ^= s[0];
  s[3] ^= s[1];
  s[1] ^= s[2];
  s[0] ^= s[3];
  s[2] ^= shifted;
  s[3] = rotateLeft(s[3], 11);
  return scrambled;
}

function rotateLeft(value: number, bits: number): number {
  return (value << bits) | (value >>> (32 - bits));
}

/** Uniform in [0, 1), in steps of 2^-32. */
export function uniform(random: Random): number {
  return nextUint32(random) / 0x1_0000_0000;
}

/** Uniform in [low, high). */
export function between(random: Random, low: number, high: number): number {
  return low + (high - low) * uniform(random);
}

/** Uniform in the logarithm between two positive limits. */
export function logBetween(random: Random, low: number, high: number): number {
  return low * (high / low) ** uniform(random);
}

/** True with the given probability. */
export function chance(random: Random, probability: number): boolean {
  return uniform(random) < probability;
}

/** One of the items, each as likely as the others. */
export function pick<T>(random: Random, items: readonly [T, ...T[]]): T {
  return items[Math.floor(uniform(random) * items.length)] ?? items[0];
}

/**
 * The items in a random order, each order as likely as the others: the shuffle of Fisher and Yates
 * (R. Durstenfeld, Algorithm 235: Random permutation, Communications of the ACM 7(7), 1964, 420;
 * Knuth, The Art of Computer Programming 2, 3.4.2, algorithm P; both from memory).
 */
export function shuffled<T>(random: Random, items: readonly T[]): T[] {
  const order = [...items];
  for (let last = order.length - 1; last > 0; last--) {
    const chosen = Math.floor(uniform(random) * (last + 1));
    [order[last], order[chosen]] = [order[chosen]!, order[last]!];
  }
  return order;
}

/**
 * Standard normal deviate by the polar method (Marsaglia and Bray, SIAM Review 6(3), 1964;
 * from memory).
 */
export function normal(random: Random): number {
  const spare = random.spareNormal;
  if (spare !== null) {
    random.spareNormal = null;
    return spare;
  }
  for (;;) {
    const x = 2 * uniform(random) - 1;
    const y = 2 * uniform(random) - 1;
    const radius = x * x + y * y;
    if (radius >= 1 || radius === 0) continue;
    const scale = Math.sqrt((-2 * Math.log(radius)) / radius);
    random.spareNormal = y * scale;
    return x * scale;
  }
}

/** Time to the next event of a Poisson process, s; never comes at a rate of zero. */
export function waitingTime_s(random: Random, rate_Hz: number): number {
  return rate_Hz > 0 ? -Math.log(1 - uniform(random)) / rate_Hz : Infinity;
}
