/**
 * What the noise of a steady reading does at long times, judged from a short stretch of it.
 *
 * The spectrum is taken as that of a first-order lag driven by white noise (turbulence behind a
 * rotor's inertia) plus white noise (ripple, converter steps):
 *   S(f) = L·[(1 − w)/(1 + (2πfτ)²) + w],
 * L the long-run variance in unit²·s. The squared cosine coefficients of the stretch estimate S at
 * f = j/(2T) nearly independently (equal-weighted cosines: Lazarus, Lewis, Stock and Watson,
 * J. Business & Economic Statistics 36(4), 2018; likelihood: P. Whittle, 1953; both from memory).
 * τ and w are averaged over a grid, weighed with what is known beforehand; so is L, in log scale.
 */

/** What is believed of the noise. Relative or absolute: the unit is that of the readings. */
export interface NoiseModel {
  /** ln of the long-run variance, unit²·s, and the variance of that logarithm. */
  readonly logLevel: number;
  readonly logLevelVariance: number;
  /** Correlation time of the slow part. */
  readonly time_s: number;
  /** Share of the long-run variance that is white. */
  readonly whiteShare: number;
}

/** Belief before anything is seen of a stretch; variances are those of logarithms. */
export interface NoisePrior {
  readonly logLevel: number;
  readonly logLevelVariance: number;
  readonly logTime: number;
  readonly logTimeVariance: number;
}

const TIMES_S = [0.15, 0.3, 0.6, 1.2, 2.4, 4.8];
const SHARES = [0.0005, 0.003, 0.012, 0.05, 0.2, 1];
/** Finest resolution of a stretch; longer ones are averaged down. */
const MOST_POINTS = 64;

/** Averages neighbours until no more than `most` remain. */
export function condense(values: readonly number[], most: number): readonly number[] {
  const width = Math.ceil(values.length / most);
  if (width <= 1) return values;
  const means: number[] = [];
  for (let at = 0; at + width <= values.length; at += width) {
    let sum = 0;
    for (let i = at; i < at + width; i++) sum += values[i]!;
    means.push(sum / width);
  }
  return means;
}

/** Squared cosine coefficients j = 1 … n−1 of the deviations, so scaled that white noise gives its variance. */
export function cosinePowers(values: readonly number[]): number[] {
  const n = values.length;
  const powers: number[] = [];
  for (let j = 1; j < n; j++) {
    const angle = (Math.PI * j) / n;
    const twice = 2 * Math.cos(angle);
    // cos(angle·(i + ½)) by its recurrence.
    let now = Math.cos(angle / 2);
    let before = now;
    let sum = 0;
    for (let i = 0; i < n; i++) {
      sum += values[i]! * now;
      const next = twice * now - before;
      before = now;
      now = next;
    }
    powers.push((2 / n) * sum * sum);
  }
  return powers;
}

/** Removes the least-squares line. */
export function detrend(values: readonly number[]): number[] {
  const n = values.length;
  const middle = (n - 1) / 2;
  let sum = 0;
  let weighted = 0;
  let squares = 0;
  for (let i = 0; i < n; i++) {
    sum += values[i]!;
    weighted += (i - middle) * values[i]!;
    squares += (i - middle) ** 2;
  }
  const slope = squares > 0 ? weighted / squares : 0;
  return values.map((value, i) => value - sum / n - slope * (i - middle));
}

interface Candidate {
  readonly time_s: number;
  readonly whiteShare: number;
  readonly logLevel: number;
  readonly variance: number;
  readonly logWeight: number;
}

function weigh(
  powers: readonly number[],
  asked: { period_s: number; prior: NoisePrior; time_s: number; whiteShare: number },
): Candidate {
  const { period_s, prior, time_s, whiteShare } = asked;
  const n = powers.length + 1;
  let ratio = 0;
  let product = 1;
  let logShape = 0;
  // The line has been taken out: the first coefficient is gone with it.
  for (let j = 2; j < n; j++) {
    const turns = (Math.PI * j * time_s) / (n * period_s);
    const shape = (1 - whiteShare) / (1 + turns * turns) + whiteShare;
    ratio += powers[j - 1]! / shape;
    product *= shape;
    if (product < 1e-200) {
      logShape += Math.log(product);
      product = 1;
    }
  }
  logShape += Math.log(product);
  const count = n - 2;
  const seen = Math.log((ratio * period_s) / count);
  const spread = prior.logLevelVariance + 2 / count;
  const misfit = seen - prior.logLevel;
  const logTime = Math.log(time_s) - prior.logTime;
  return {
    time_s,
    whiteShare,
    logLevel: (seen * prior.logLevelVariance + (prior.logLevel * 2) / count) / spread,
    variance: (prior.logLevelVariance * 2) / count / spread,
    logWeight:
      -0.5 * (count * seen + logShape + (misfit * misfit) / spread + Math.log(spread)) -
      (0.5 * logTime * logTime) / prior.logTimeVariance,
  };
}

/**
 * The noise of equally spaced block means whose line was taken out, `period_s` apart. Needs four;
 * with fewer, or without any variation, the prior is what is known.
 */
export function fitNoise(values: readonly number[], period_s: number, prior: NoisePrior): NoiseModel {
  const points = condense(values, MOST_POINTS);
  const spacing_s = period_s * Math.ceil(values.length / MOST_POINTS);
  const powers = points.length < 4 ? [] : cosinePowers(points);
  if (!powers.some((power) => power > 1e-300)) return priorModel(prior);
  const candidates: Candidate[] = [];
  for (const time_s of TIMES_S) {
    for (const whiteShare of SHARES) {
      candidates.push(weigh(powers, { period_s: spacing_s, prior, time_s, whiteShare }));
    }
  }
  return average(candidates);
}

export function priorModel(prior: NoisePrior): NoiseModel {
  return {
    logLevel: prior.logLevel,
    logLevelVariance: prior.logLevelVariance,
    time_s: Math.exp(prior.logTime),
    whiteShare: 0.01,
  };
}

function average(candidates: readonly Candidate[]): NoiseModel {
  const best = Math.max(...candidates.map((one) => one.logWeight));
  let total = 0;
  let level = 0;
  let square = 0;
  let time = 0;
  let share = 0;
  for (const one of candidates) {
    const weight = Math.exp(one.logWeight - best);
    total += weight;
    level += weight * one.logLevel;
    square += weight * (one.logLevel * one.logLevel + one.variance);
    time += weight * Math.log(one.time_s);
    share += weight * Math.log(one.whiteShare);
  }
  const logLevel = level / total;
  return {
    logLevel,
    logLevelVariance: Math.max(square / total - logLevel * logLevel, 1e-6),
    time_s: Math.exp(time / total),
    whiteShare: Math.exp(share / total),
  };
}

/** Variance of a mean over `length_s`. */
export function varianceOfMean(noise: NoiseModel, length_s: number): number {
  const ratio = length_s / noise.time_s;
  const damped = 1 - (1 - Math.exp(-ratio)) / ratio;
  return (Math.exp(noise.logLevel) * ((1 - noise.whiteShare) * damped + noise.whiteShare)) / length_s;
}

/** Variance of a least-squares slope over `length_s`: the spectrum where such a slope listens. */
export function varianceOfSlope(noise: NoiseModel, length_s: number): number {
  const turns = (2 * Math.PI * 0.55 * noise.time_s) / length_s;
  const shape = (1 - noise.whiteShare) / (1 + turns * turns) + noise.whiteShare;
  return (12 * Math.exp(noise.logLevel) * shape) / length_s ** 3;
}

/** Degrees of freedom whose χ² spreads as widely as the belief in the long-run variance. */
export function degreesOfFreedomOf(noise: NoiseModel): number {
  // Var(ln χ²_ν) = ψ′(ν/2) ≈ 2/ν + 2/ν² + …; solved for ν with the first two terms.
  const v = noise.logLevelVariance;
  return (1 + Math.sqrt(1 + 2 * v)) / v;
}

/**
 * The same noise, but never quieter than rounding to a step allows: a reading that stands on one
 * step may be anywhere within it (variance step²/12, JCGM 100:2008 F.2.2.1, here for `hold_s`).
 */
export function atLeastRounding(noise: NoiseModel, step: number, hold_s: number): NoiseModel {
  if (step === 0) return noise;
  const floor = Math.log((step * step * hold_s) / 12);
  return noise.logLevel >= floor ? noise : { ...noise, logLevel: floor };
}
