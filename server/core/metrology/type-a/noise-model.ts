/**
 * What the noise of a steady reading does at long times, judged from a short stretch of it.
 *
 * The stretch is of the drive: the reading with the lag of the rotor taken out (lag 0: the reading
 * itself), in which turbulence is nearly white. Its spectrum is taken as that of a first-order lag
 * (what is slow in the air) plus white noise of the reading itself (ripple, converter steps), which
 * taking the lag out has raised at high frequencies:
 *   S(f) = L·[(1 − w)/(1 + (2πfτ)²) + w·(cos²πfΔ + (2·lag/Δ)² sin²πfΔ)],
 * L the long-run variance in unit²·s, Δ the spacing (where no lag is taken out, w stands alone).
 * The squared cosine coefficients of the stretch estimate S at f = j/(2T) nearly independently
 * (equal-weighted cosines: Lazarus, Lewis, Stock and Watson, J. Business & Economic Statistics
 * 36(4), 2018; likelihood: P. Whittle, 1953; both from memory). τ and w are averaged over a grid,
 * weighed with what is known beforehand; so is L, in log scale.
 */
import { condense, cosinePowers } from './cosines.ts';

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
  /** ln of how strongly the stretch speaks for noise that does not pass the rotor (odds ratio). */
  readonly ownEvidence: number;
}

/** Belief before anything is seen of a stretch; variances are those of logarithms. */
export interface NoisePrior {
  readonly logLevel: number;
  readonly logLevelVariance: number;
  readonly logTime: number;
  readonly logTimeVariance: number;
  /** ln of the odds for noise that does not pass the rotor, as the session has shown it. */
  readonly logOwn: number;
}

/** Kinds of noise that a spectrum may be made of, beside the white one of the reading itself. */
interface Air {
  /** Memory of what is slow in the air, and its share; the rest are gusts of a short memory. */
  readonly time_s: number;
  readonly share: number;
  /** Whether it lags, as all that passes the rotor does. Generator and load have noise that does not. */
  readonly lags: boolean;
  /** Whether the reading's own noise is not white but rough: ripple leaves such a beat in its means. */
  readonly rough: boolean;
}

const mixed = (time_s: number, share: number): Air => ({ time_s, share, lags: true, rough: false });
const passing = (time_s: number): Air => mixed(time_s, 1);
const own = (time_s: number): Air => ({ ...passing(time_s), lags: false });
const overRough = (time_s: number): Air => ({ ...passing(time_s), rough: true });

const TIMES_S = [0.15, 0.3, 0.6, 1.2, 2.4, 4.8];
const GUSTY: readonly Air[] = [...TIMES_S.map(passing), ...[0.15, 0.3, 0.6, 1.2].map(own)];
/**
 * Where mains or room air wander there are both; a wander need not pass the rotor either. Gusts may
 * come with rough noise: behind a slow rotor that is most of what is seen, and taken for all of it.
 */
const WANDERING: readonly Air[] = [
  ...GUSTY,
  mixed(1.2, 0.6),
  mixed(2.4, 0.5),
  mixed(2.4, 0.8),
  mixed(4.8, 0.5),
  own(2.4),
  ...TIMES_S.map(overRough),
];
/**
 * ln of the odds against noise that need not pass the rotor, per share of the stretch that the lag
 * makes up. Many lags show which it is; over a few, gusts behind the rotor look like quieter noise
 * of the generator's own, with a memory of a second or two, and gusts are what such rigs have.
 */
const LAGS_ODDS = 12;
const GUST_S = 0.15;
/** Memory of the reading's own noise where it is rough. */
const ROUGH_S = 0.15;
/** ln of the mean memory of each. */
const LOG_TIMES = WANDERING.map(({ share, time_s }) =>
  Math.log(share * time_s + (1 - share) * GUST_S),
);
const SHARES = [0.0005, 0.003, 0.012, 0.05, 0.2, 1];
/** Less variance than this is that of the arithmetic: levels are of the order of one. */
const ROUNDING = 1e-24;
/** Finest resolution of a stretch; longer ones are averaged down. */
const MOST_POINTS = 64;

/** Squared coefficients of a stretch, and the parts that its spectrum may be made of. */
interface Spectrum {
  count: number;
  spacing_s: number;
  readonly powers: number[];
  /** By how much white noise of the reading is raised at each coefficient. */
  readonly raised: Float64Array;
  /** The reading's own noise, white or rough, relative to its long-run variance. */
  readonly reading: Float64Array;
  /** What is slow in the air, relative to its long-run variance. */
  readonly air: Float64Array;
}

/** The one that is worked on: nothing of it outlives a fit. */
const SPECTRUM: Spectrum = {
  count: 0,
  spacing_s: NaN,
  powers: new Array<number>(MOST_POINTS),
  raised: new Float64Array(MOST_POINTS),
  reading: new Float64Array(MOST_POINTS),
  air: new Float64Array(MOST_POINTS),
};

function transform(points: ArrayLike<number>, spacing_s: number, lag_s: number): Spectrum {
  const n = points.length;
  const gain = (2 * lag_s) / spacing_s;
  const { powers, raised } = SPECTRUM;
  SPECTRUM.count = n - 1;
  SPECTRUM.spacing_s = spacing_s;
  cosinePowers(points, n - 1, powers);
  for (let j = 1; j < n; j++) {
    const sine = Math.sin((Math.PI * j) / (2 * n));
    // Readings from which no lag is taken out are not averaged by twos either.
    raised[j - 1] = lag_s > 0 ? 1 + (gain * gain - 1) * sine * sine : 1;
  }
  return SPECTRUM;
}

function setAir(
  { count, spacing_s, air, raised, reading }: Spectrum,
  { time_s, share, lags, rough }: Air,
): void {
  const unit = Math.PI / ((count + 1) * spacing_s);
  for (let j = 0; j < count; j++) {
    const turns = unit * (j + 1);
    const slow = turns * time_s;
    let shape = share / (1 + slow * slow);
    if (share < 1) {
      const gusts = turns * GUST_S;
      shape += (1 - share) / (1 + gusts * gusts);
    }
    air[j] = lags ? shape : shape * raised[j]!;
    const slowness = rough ? turns * ROUGH_S : 0;
    reading[j] = raised[j]! / (1 + slowness * slowness);
  }
}

/**
 * One shape of the spectrum: the level that it would have, and how well it fits (up to what is the
 * same for all). Shapes lie between 1e-4 and 1e4, their product within a number's range.
 */
interface Candidate {
  readonly logLevel: number;
  readonly variance: number;
  readonly logWeight: number;
}

function weigh(spectrum: Spectrum, whiteShare: number, prior: NoisePrior): Candidate {
  const { count, spacing_s, powers, reading, air } = spectrum;
  let ratio = 0;
  let product = 1;
  // The line has been taken out: the first coefficient is gone with it. Two share a division.
  let j = 1;
  for (; j + 1 < count; j += 2) {
    const one = air[j]! + whiteShare * (reading[j]! - air[j]!);
    const other = air[j + 1]! + whiteShare * (reading[j + 1]! - air[j + 1]!);
    const both = one * other;
    ratio += (powers[j]! * other + powers[j + 1]! * one) / both;
    product *= both;
  }
  if (j < count) {
    const last = air[j]! + whiteShare * (reading[j]! - air[j]!);
    ratio += powers[j]! / last;
    product *= last;
  }
  const seen = Math.log((ratio * spacing_s) / (count - 1));
  const seenVariance = 2 / (count - 1);
  const spread = prior.logLevelVariance + seenVariance;
  const misfit = seen - prior.logLevel;
  return {
    logLevel: (seen * prior.logLevelVariance + prior.logLevel * seenVariance) / spread,
    variance: (prior.logLevelVariance * seenVariance) / spread,
    logWeight: -0.5 * ((count - 1) * seen + Math.log(product) + (misfit * misfit) / spread),
  };
}

/** A weighted average of candidates; weights are relative to that of the best so far. */
interface Average {
  best: number;
  total: number;
  level: number;
  square: number;
  time: number;
  share: number;
  own: number;
}

/** ln of a weight that the arithmetic cannot hold beside the best. */
const NEGLIGIBLE = 40;

function addTo(
  average: Average,
  { logLevel, variance, logWeight }: Candidate,
  { logTime, logShare, own }: { logTime: number; logShare: number; own: boolean },
): void {
  if (logWeight > average.best) {
    const fade = Math.exp(average.best - logWeight);
    average.best = logWeight;
    average.total *= fade;
    average.level *= fade;
    average.square *= fade;
    average.time *= fade;
    average.share *= fade;
    average.own *= fade;
  }
  if (logWeight < average.best - NEGLIGIBLE) return;
  const weight = Math.exp(logWeight - average.best);
  average.total += weight;
  average.level += weight * logLevel;
  average.square += weight * (logLevel * logLevel + variance);
  average.time += weight * logTime;
  average.share += weight * logShare;
  if (own) average.own += weight;
}

const LOG_SHARES = SHARES.map((share) => Math.log(share));

/**
 * ln of the factor by which the white share is greater that would move a mean of the drive as this
 * noise does. Noise of the reading's own of memory τ moves it by lag·(its last value − its first)/T,
 * as white noise does that is read every 2τ (+ Δ): Δ/(2τ + Δ) of it counts as white.
 */
function logRaisedBy({ time_s, lags }: Air, whiteShare: number, period_s: number): number {
  if (lags) return 0;
  const own = period_s / (2 * time_s + period_s);
  return Math.log(1 + (1 / whiteShare - 1) * own);
}

/** ln of the odds of a share; what is beyond e^±14 is not told apart. */
function logOddsOf(share: number): number {
  const held = Math.min(Math.max(share, 1e-6), 1 - 1e-6);
  return Math.log(held / (1 - held));
}

/** What is known of a stretch before its spectrum is looked at. */
interface Known {
  readonly period_s: number;
  readonly lag_s: number;
  readonly prior: NoisePrior;
  readonly wanders: boolean;
}

/** −ln of the odds, up to a factor that is the same for all, that the noise is of this kind. */
function surpriseOf(k: number, { period_s, lag_s, prior }: Known, count: number): number {
  const remote = (0.5 * (LOG_TIMES[k]! - prior.logTime) ** 2) / prior.logTimeVariance;
  if (WANDERING[k]!.lags) return remote;
  // Without a lag there is nothing to pass.
  if (lag_s === 0) return Infinity;
  return remote + (LAGS_ODDS * lag_s) / (count * period_s) - prior.logOwn;
}

/**
 * The noise of equally spaced readings, `period_s` apart, whose line was taken out and from which
 * a lag was taken out. Needs four; with fewer, or without variation, the prior is what is known.
 * `wanders`: the air may be slow and gusty at once. A mean over a long stretch meets all of a slow
 * wander, a comparison of neighbouring stretches hardly any.
 */
export function fitNoise(values: ArrayLike<number>, known: Known): NoiseModel {
  const { period_s, lag_s, prior, wanders } = known;
  const raise_s = (lag_s * lag_s) / period_s;
  const points = condense(values, MOST_POINTS);
  if (points.length < 4) return priorModel(prior, raise_s);
  const spectrum = transform(points, period_s * Math.ceil(values.length / MOST_POINTS), lag_s);
  if (!hasPower(spectrum)) return priorModel(prior, raise_s);
  const average = { best: -Infinity, total: 0, level: 0, square: 0, time: 0, share: 0, own: 0 };
  const beforehand = { total: 0, own: 0 };
  const airs = wanders ? WANDERING : GUSTY;
  for (let k = 0; k < airs.length; k++) {
    const air = airs[k]!;
    const surprise = surpriseOf(k, known, values.length);
    if (surprise === Infinity) continue;
    beforehand.total += Math.exp(-surprise);
    if (!air.lags) beforehand.own += Math.exp(-surprise);
    setAir(spectrum, air);
    for (let i = 0; i < SHARES.length; i++) {
      const { logLevel, variance, logWeight } = weigh(spectrum, SHARES[i]!, prior);
      const candidate = { logLevel, variance, logWeight: logWeight - surprise };
      const logShare = LOG_SHARES[i]! + logRaisedBy(air, SHARES[i]!, period_s);
      addTo(average, candidate, { logTime: LOG_TIMES[k]!, logShare, own: !air.lags });
    }
  }
  const { total } = average;
  const logLevel = average.level / total;
  const own = logOddsOf(average.own / total) - logOddsOf(beforehand.own / beforehand.total);
  return {
    logLevel,
    logLevelVariance: Math.max(average.square / total - logLevel * logLevel, 1e-6),
    time_s: Math.exp(average.time / total),
    whiteShare: Math.exp(average.share / total),
    raise_s,
    ownEvidence: lag_s === 0 ? 0 : own,
  };
}

function hasPower({ powers, count }: Spectrum): boolean {
  for (let j = 0; j < count; j++) if (powers[j]! > ROUNDING) return true;
  return false;
}

function priorModel(prior: NoisePrior, raise_s: number): NoiseModel {
  return {
    logLevel: prior.logLevel,
    logLevelVariance: prior.logLevelVariance,
    time_s: Math.exp(prior.logTime),
    whiteShare: 0.01,
    raise_s,
    ownEvidence: 0,
  };
}

/** What is left over a length of the variance that white noise of the same level would have. */
export function damped(length_s: number, time_s: number): number {
  const ratio = length_s / time_s;
  return 1 - (1 - Math.exp(-ratio)) / ratio;
}

/** A lower bound of the variance of a mean of the drive over `length_s`, without exponentials. */
export function leastVarianceOfMean(
  { whiteShare, raise_s, time_s }: NoiseModel,
  longRunVariance: number,
  length_s: number,
): number {
  // 1 − (1 − e^(−x))/x ≥ x/(2 + x) for x ≥ 0.
  const slow = ((1 - whiteShare) * length_s) / (2 * time_s + length_s);
  const white = whiteShare * (1 + (2 * raise_s) / length_s);
  return (longRunVariance * (slow + white)) / length_s;
}

/** Variance of a mean of the drive over `length_s`. */
export function varianceOfMean(noise: NoiseModel, length_s: number): number {
  const { whiteShare, raise_s, time_s } = noise;
  const slow = (1 - whiteShare) * damped(length_s, time_s);
  const white = whiteShare * (1 + (2 * raise_s) / length_s);
  return (Math.exp(noise.logLevel) * (slow + white)) / length_s;
}

/**
 * Variance of a mean of the reading itself over `length_s`: the lag has smoothed the slow part. It
 * belongs to Student's t with ν = degreesOfFreedomOf(noise), which reckons with how poorly the
 * long-run variance L is known. So it is what an experimental variance s² with ν degrees of freedom
 * would be: ln s² lies 1/ν below ln L (digamma(ν/2) ≈ ln(ν/2) − 1/ν: Abramowitz and Stegun, 6.3.18).
 */
export function varianceOfReadingMean(noise: NoiseModel, length_s: number, lag_s: number): number {
  const { logLevel, whiteShare, time_s } = noise;
  const slow = (1 - whiteShare) * damped(length_s, time_s + lag_s);
  const level = Math.exp(logLevel - 1 / degreesOfFreedomOf(noise));
  return (level * (slow + whiteShare)) / length_s;
}

/** Variance of a least-squares slope of the drive: the spectrum at the frequency it listens to. */
export function varianceOfSlope(noise: NoiseModel, length_s: number): number {
  const { whiteShare, raise_s, time_s } = noise;
  const turns = (2 * Math.PI * 0.55 * time_s) / length_s;
  const slow = (1 - whiteShare) / (1 + turns * turns);
  const white = whiteShare * (1 + (6 * raise_s) / length_s);
  return (12 * Math.exp(noise.logLevel) * (slow + white)) / (length_s * length_s * length_s);
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
