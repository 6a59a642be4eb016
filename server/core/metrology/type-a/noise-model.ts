/**
 * What the noise of a steady reading does at long times, judged from a short stretch of it.
 *
 * The stretch is of the drive: the reading with the lag of the rotor taken out (lag 0: the reading
 * itself), in which turbulence is nearly white. Its spectrum is taken as that of a first-order lag
 * (what is slow in the air) plus white noise of the reading itself (ripple, converter steps), which
 * taking the lag out has raised at high frequencies:
 *   S(f) = L·[(1 − w)/(1 + (2πfτ)²) + w·(cos²πfΔ + (2·lag/Δ)² sin²πfΔ)],
 * L the long-run variance in unit²·s, Δ the spacing. The squared cosine coefficients of the stretch
 * estimate S at f = j/(2T) nearly independently (equal-weighted cosines: Lazarus, Lewis, Stock and
 * Watson, J. Business & Economic Statistics 36(4), 2018; likelihood: P. Whittle, 1953; both from
 * memory). τ and w are averaged over a grid, weighed with what is known beforehand; so is L, in
 * log scale.
 */

/** What is believed of the noise. Relative or absolute: the unit is that of the readings. */
export interface NoiseModel {
  /** ln of the long-run variance, unit²·s, and the variance of that logarithm. */
  readonly logLevel: number;
  readonly logLevelVariance: number;
  /** Correlation time of the slow part. */
  readonly time_s: number;
  /** Share of the long-run variance that is white noise of the reading. */
  readonly whiteShare: number;
  /** lag²/Δ: how much taking the lag out has raised the reading's white noise, s. */
  readonly raise_s: number;
}

/** Belief before anything is seen of a stretch; variances are those of logarithms. */
export interface NoisePrior {
  readonly logLevel: number;
  readonly logLevelVariance: number;
  readonly logTime: number;
  readonly logTimeVariance: number;
}

/**
 * What is slow in the air: its memory and its share, the rest being gusts of a short memory. Where
 * mains or room air wander there are both.
 */
const AIRS = [
  { time_s: 0.15, share: 1 },
  { time_s: 0.3, share: 1 },
  { time_s: 0.6, share: 1 },
  { time_s: 1.2, share: 1 },
  { time_s: 2.4, share: 1 },
  { time_s: 4.8, share: 1 },
  { time_s: 1.2, share: 0.6 },
  { time_s: 2.4, share: 0.5 },
  { time_s: 2.4, share: 0.8 },
  { time_s: 4.8, share: 0.5 },
] as const;
const GUST_S = 0.15;
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

/** Squared cosine coefficients j = 1 … n−1; white noise gives its variance in each. */
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

interface Stretch {
  readonly period_s: number;
  readonly prior: NoisePrior;
  /** By how much white noise of the reading is raised at each coefficient. */
  readonly raised: readonly number[];
}

function raisedBy(lag_s: number, period_s: number, n: number): number[] {
  const gain = (2 * lag_s) / period_s;
  return Array.from({ length: n }, (_, j) => {
    const half = (Math.PI * j) / (2 * n);
    return Math.cos(half) ** 2 + (gain * Math.sin(half)) ** 2;
  });
}

function weigh(
  powers: readonly number[],
  asked: { stretch: Stretch; air: (typeof AIRS)[number]; whiteShare: number },
): Candidate {
  const { stretch, air, whiteShare } = asked;
  const time_s = air.share * air.time_s + (1 - air.share) * GUST_S;
  const { period_s, prior, raised } = stretch;
  const n = powers.length + 1;
  let ratio = 0;
  let product = 1;
  let logShape = 0;
  // The line has been taken out: the first coefficient is gone with it.
  for (let j = 2; j < n; j++) {
    const turns = (Math.PI * j) / (n * period_s);
    const slow = air.share / (1 + (turns * air.time_s) ** 2);
    const gusts = (1 - air.share) / (1 + (turns * GUST_S) ** 2);
    const shape = (1 - whiteShare) * (slow + gusts) + whiteShare * raised[j]!;
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
 * The noise of equally spaced readings, `period_s` apart, whose line was taken out and from which
 * a lag was taken out. Needs four; with fewer, or without variation, the prior is what is known.
 * `wanders`: the air may be slow and gusty at once. A mean over a long stretch meets all of a slow
 * wander, a comparison of neighbouring stretches hardly any.
 */
export function fitNoise(
  values: readonly number[],
  known: { period_s: number; lag_s: number; prior: NoisePrior; wanders: boolean },
): NoiseModel {
  const { period_s, lag_s, prior, wanders } = known;
  const width = Math.ceil(values.length / MOST_POINTS);
  const points = condense(values, MOST_POINTS);
  const powers = points.length < 4 ? [] : cosinePowers(points);
  const raise_s = (lag_s * lag_s) / period_s;
  if (!powers.some((power) => power > 1e-300)) return { ...priorModel(prior), raise_s };
  const spacing_s = period_s * width;
  const raised = raisedBy(lag_s, spacing_s, points.length);
  const candidates: Candidate[] = [];
  for (const air of AIRS) {
    if (air.share < 1 && !wanders) continue;
    for (const whiteShare of SHARES) {
      const stretch = { period_s: spacing_s, prior, raised };
      candidates.push(weigh(powers, { stretch, air, whiteShare }));
    }
  }
  return { ...average(candidates), raise_s };
}

function priorModel(prior: NoisePrior): Omit<NoiseModel, 'raise_s'> {
  return {
    logLevel: prior.logLevel,
    logLevelVariance: prior.logLevelVariance,
    time_s: Math.exp(prior.logTime),
    whiteShare: 0.01,
  };
}

function average(candidates: readonly Candidate[]): Omit<NoiseModel, 'raise_s'> {
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

/** What is left over a length of the variance that white noise of the same level would have. */
function damped(length_s: number, time_s: number): number {
  const ratio = length_s / time_s;
  return 1 - (1 - Math.exp(-ratio)) / ratio;
}

/** Variance of a mean of the drive over `length_s`. */
export function varianceOfMean(noise: NoiseModel, length_s: number): number {
  const { whiteShare, raise_s, time_s } = noise;
  const slow = (1 - whiteShare) * damped(length_s, time_s);
  const white = whiteShare * (1 + (2 * raise_s) / length_s);
  return (Math.exp(noise.logLevel) * (slow + white)) / length_s;
}

/**
 * Variance of a mean of the reading itself over `length_s`: the lag has smoothed the slow part.
 * The long-run variance is taken at its expectation, not at its median: exp(½ Var ln L) higher.
 */
export function varianceOfReadingMean(noise: NoiseModel, length_s: number, lag_s: number): number {
  const { logLevel, logLevelVariance, whiteShare, time_s } = noise;
  const slow = (1 - whiteShare) * damped(length_s, time_s + lag_s);
  return (Math.exp(logLevel + logLevelVariance / 2) * (slow + whiteShare)) / length_s;
}

/** Variance of a least-squares slope of the drive: the spectrum at the frequency it listens to. */
export function varianceOfSlope(noise: NoiseModel, length_s: number): number {
  const { whiteShare, raise_s, time_s } = noise;
  const turns = (2 * Math.PI * 0.55 * time_s) / length_s;
  const slow = (1 - whiteShare) / (1 + turns * turns);
  const white = whiteShare * (1 + (6 * raise_s) / length_s);
  return (12 * Math.exp(noise.logLevel) * (slow + white)) / length_s ** 3;
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
