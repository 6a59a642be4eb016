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
import { condense, cosinePowers, sinesOf } from './cosines.ts';
import type { NoiseModel, NoisePrior } from './noise-model.ts';

/** Kinds of noise that a spectrum may be made of, beside the white one of the reading itself. */
interface Air {
  /** Memory of what is slow in the air (which of TIMES_S), and its share; the rest are gusts. */
  readonly memory: number;
  readonly share: number;
  /** Whether it lags, as all that passes the rotor does. Generator and load have noise that does not. */
  readonly lags: boolean;
  /** Whether the reading's own noise is not white but rough: ripple leaves such a beat in its means. */
  readonly rough: boolean;
}

/** Memories that are reckoned with, s. */
const TIMES_S = [0.15, 0.3, 0.6, 1.2, 2.4, 4.8];
/** Of gusts beside a wander, and of the reading's own noise where it is rough. */
const SHORTEST_S = TIMES_S[0]!;

const mixed = (time_s: number, share: number): Air => ({
  memory: TIMES_S.indexOf(time_s),
  share,
  lags: true,
  rough: false,
});
const passing = (time_s: number): Air => mixed(time_s, 1);
const own = (time_s: number): Air => ({ ...passing(time_s), lags: false });
const overRough = (time_s: number): Air => ({ ...passing(time_s), rough: true });

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
/** ln of the mean memory of each. */
const LOG_TIMES = WANDERING.map(({ share, memory }) =>
  Math.log(share * TIMES_S[memory]! + (1 - share) * SHORTEST_S),
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
  readonly powers: Float64Array;
  /** By how much white noise of the reading is raised at each coefficient. */
  readonly raised: Float64Array;
  /** What first-order lags leave of white noise there, for each of TIMES_S. */
  readonly slowed: readonly Float64Array[];
  /** What is slow in the air, relative to its long-run variance. */
  readonly air: Float64Array;
  /** By how much the reading's own noise, white or rough, is more than that, likewise. */
  readonly beyond: Float64Array;
}

/** The one that is worked on: nothing of it outlives a fit. */
const SPECTRUM: Spectrum = {
  count: 0,
  spacing_s: NaN,
  powers: new Float64Array(MOST_POINTS),
  raised: new Float64Array(MOST_POINTS),
  slowed: TIMES_S.map(() => new Float64Array(MOST_POINTS)),
  air: new Float64Array(MOST_POINTS),
  beyond: new Float64Array(MOST_POINTS),
};

function transform(points: ArrayLike<number>, spacing_s: number, lag_s: number): Spectrum {
  const n = points.length;
  const gain = (2 * lag_s) / spacing_s;
  const { powers, raised } = SPECTRUM;
  SPECTRUM.count = n - 1;
  SPECTRUM.spacing_s = spacing_s;
  cosinePowers(points, n - 1, powers);
  const sines = sinesOf(n);
  for (let j = 0; j < n - 1; j++) {
    // Readings from which no lag is taken out are not averaged by twos either.
    raised[j] = lag_s > 0 ? 1 + (gain * gain - 1) * sines[j]! * sines[j]! : 1;
  }
  for (let i = 0; i < TIMES_S.length; i++) slowBy(TIMES_S[i]!, SPECTRUM, SPECTRUM.slowed[i]!);
  return SPECTRUM;
}

/** What a first-order lag leaves of white noise at each coefficient. */
function slowBy(time_s: number, { count, spacing_s }: Spectrum, slowed: Float64Array): void {
  const turns = (Math.PI / ((count + 1) * spacing_s)) * time_s;
  for (let j = 0; j < count; j++) slowed[j] = 1 / (1 + (turns * (j + 1)) ** 2);
}

function setAir(spectrum: Spectrum, { memory, share, lags, rough }: Air): void {
  const { count, raised, slowed, air, beyond } = spectrum;
  const slow = slowed[memory]!;
  const gusts = slowed[0]!;
  for (let j = 0; j < count; j++) {
    const shape = share * slow[j]! + (1 - share) * gusts[j]!;
    const reading = rough ? raised[j]! * gusts[j]! : raised[j]!;
    air[j] = lags ? shape : shape * raised[j]!;
    beyond[j] = reading - air[j]!;
  }
}

/**
 * How the shapes that are tried fit a spectrum, by kind of air and share of white noise: ln of the
 * level that each would have, and of the product of its values. Shapes lie between 1e-4 and 1e4,
 * their product within a number's range. Nothing of these outlives a fit either.
 */
const LOG_LEVELS = new Float64Array(WANDERING.length * SHARES.length);
const LOG_PRODUCTS = new Float64Array(WANDERING.length * SHARES.length);
/** What one belief makes of each: ln of its weight, up to a factor that is the same for all. */
const LOG_WEIGHTS = new Float64Array(WANDERING.length * SHARES.length);
/** And of each kind of air before anything is seen: −ln of its odds, likewise. */
const SURPRISES = new Float64Array(WANDERING.length);

/** Fits the shape with one share of white noise, as the one at `at`. */
function fitShape(
  { count, spacing_s, powers, air, beyond }: Spectrum,
  whiteShare: number,
  at: number,
): void {
  let ratio = 0;
  let product = 1;
  // The line has been taken out: the first coefficient is gone with it. Two share a division.
  let j = 1;
  for (; j + 1 < count; j += 2) {
    const one = air[j]! + whiteShare * beyond[j]!;
    const other = air[j + 1]! + whiteShare * beyond[j + 1]!;
    const both = one * other;
    ratio += (powers[j]! * other + powers[j + 1]! * one) / both;
    product *= both;
  }
  if (j < count) {
    const last = air[j]! + whiteShare * beyond[j]!;
    ratio += powers[j]! / last;
    product *= last;
  }
  LOG_LEVELS[at] = Math.log((ratio * spacing_s) / (count - 1));
  LOG_PRODUCTS[at] = Math.log(product);
}

const LOG_SHARES = SHARES.map((share) => Math.log(share));

/**
 * ln of the factor by which the white share is greater that would move a mean of the drive as this
 * noise does. Noise of the reading's own of memory τ moves it by lag·(its last value − its first)/T,
 * as white noise does that is read every 2τ (+ Δ): Δ/(2τ + Δ) of it counts as white.
 */
function logRaisedBy({ memory, lags }: Air, whiteShare: number, period_s: number): number {
  if (lags) return 0;
  const own = period_s / (2 * TIMES_S[memory]! + period_s);
  return Math.log(1 + (1 / whiteShare - 1) * own);
}

/** ln of the odds of a share; what is beyond e^±14 is not told apart. */
function logOddsOf(share: number): number {
  const held = Math.min(Math.max(share, 1e-6), 1 - 1e-6);
  return Math.log(held / (1 - held));
}

/** What is believed of a stretch's noise before its spectrum is looked at. */
export interface Belief {
  readonly prior: NoisePrior;
  /**
   * Whether the air may be slow and gusty at once: a mean over a long stretch meets all of a slow
   * wander, a comparison of neighbouring stretches hardly any.
   */
  readonly wanders: boolean;
}

/** From one reading of a stretch to the next, and the lag that was taken out of it. */
interface Spacing {
  readonly period_s: number;
  readonly lag_s: number;
}

/** Whether there is room for the kth kind of air; without a lag there is nothing to pass. */
function isOpen(k: number, lag_s: number, wanders: boolean): boolean {
  return (lag_s > 0 || WANDERING[k]!.lags) && (wanders || k < GUSTY.length);
}

/** Of kinds whose reading's own noise is alike the first, by which all of it is fitted. */
const FIRST_ALIKE = WANDERING.map(({ rough }) => WANDERING.findIndex((one) => one.rough === rough));
/** The share of white noise that leaves none for the air comes last. */
const ALL_WHITE = SHARES.length - 1;

/** Fits all shapes that there is room for. */
function fitShapes(spectrum: Spectrum, lag_s: number, wanders: boolean): void {
  for (let k = 0; k < WANDERING.length; k++) {
    if (!isOpen(k, lag_s, wanders)) continue;
    setAir(spectrum, WANDERING[k]!);
    const first = k * SHARES.length;
    for (let i = 0; i < ALL_WHITE; i++) fitShape(spectrum, SHARES[i]!, first + i);
    const alike = FIRST_ALIKE[k]!;
    if (alike === k) fitShape(spectrum, 1, first + ALL_WHITE);
    LOG_LEVELS[first + ALL_WHITE] = LOG_LEVELS[alike * SHARES.length + ALL_WHITE]!;
    LOG_PRODUCTS[first + ALL_WHITE] = LOG_PRODUCTS[alike * SHARES.length + ALL_WHITE]!;
  }
}

/** What is expected of each kind of air, the lag making up a share of the stretch. */
function expectAirs({ prior, wanders }: Belief, lag_s: number, lagShare: number): void {
  for (let k = 0; k < WANDERING.length; k++) {
    const remote = (0.5 * (LOG_TIMES[k]! - prior.logTime) ** 2) / prior.logTimeVariance;
    const surprise = WANDERING[k]!.lags ? remote : remote + LAGS_ODDS * lagShare - prior.logOwn;
    SURPRISES[k] = isOpen(k, lag_s, wanders) ? surprise : Infinity;
  }
}

/** ln of the odds that are expected for noise that does not pass the rotor. */
function logOwnExpected(): number {
  let total = 0;
  let own = 0;
  for (let k = 0; k < WANDERING.length; k++) {
    const weight = Math.exp(-SURPRISES[k]!);
    total += weight;
    if (!WANDERING[k]!.lags) own += weight;
  }
  return logOddsOf(own / total);
}

/** Weighs the shapes by how well they fit `seen` coefficients and what is believed: the greatest. */
function weighShapes(seen: number, prior: NoisePrior): number {
  const spread = prior.logLevelVariance + 2 / seen;
  let best = -Infinity;
  for (let k = 0; k < WANDERING.length; k++) {
    const surprise = SURPRISES[k]!;
    if (surprise === Infinity) continue;
    for (let at = k * SHARES.length; at < (k + 1) * SHARES.length; at++) {
      const misfit = LOG_LEVELS[at]! - prior.logLevel;
      const fit = seen * LOG_LEVELS[at]! + LOG_PRODUCTS[at]! + (misfit * misfit) / spread;
      const logWeight = -0.5 * fit - surprise;
      LOG_WEIGHTS[at] = logWeight;
      if (logWeight > best) best = logWeight;
    }
  }
  return best;
}

/** ln of a weight that does not count beside the best. */
const NEGLIGIBLE = 30;

/** The average over the shapes that fit `seen` coefficients, as the belief weighs them. */
function averageOf(seen: number, { prior }: Belief, { period_s, lag_s }: Spacing): NoiseModel {
  const best = weighShapes(seen, prior);
  const seenVariance = 2 / seen;
  const spread = prior.logLevelVariance + seenVariance;
  const variance = (prior.logLevelVariance * seenVariance) / spread;
  let total = 0;
  let levels = 0;
  let squares = 0;
  let times = 0;
  let shares = 0;
  let own = 0;
  for (let k = 0; k < WANDERING.length; k++) {
    if (SURPRISES[k] === Infinity) continue;
    for (let i = 0; i < SHARES.length; i++) {
      const at = k * SHARES.length + i;
      const logWeight = LOG_WEIGHTS[at]! - best;
      if (logWeight < -NEGLIGIBLE) continue;
      const weight = Math.exp(logWeight);
      const level =
        (LOG_LEVELS[at]! * prior.logLevelVariance + prior.logLevel * seenVariance) / spread;
      total += weight;
      levels += weight * level;
      squares += weight * (level * level + variance);
      times += weight * LOG_TIMES[k]!;
      shares += weight * (LOG_SHARES[i]! + logRaisedBy(WANDERING[k]!, SHARES[i]!, period_s));
      if (!WANDERING[k]!.lags) own += weight;
    }
  }
  const logLevel = levels / total;
  return {
    logLevel,
    logLevelVariance: Math.max(squares / total - logLevel * logLevel, 1e-6),
    time_s: Math.exp(times / total),
    whiteShare: Math.exp(shares / total),
    raise_s: (lag_s * lag_s) / period_s,
    ownEvidence: lag_s === 0 ? 0 : logOddsOf(own / total) - logOwnExpected(),
  };
}

/**
 * The noise of equally spaced readings, `period_s` apart, whose line was taken out and from which
 * a lag was taken out. Needs four; with fewer, or without variation, the prior is what is known.
 */
export function fitNoise(values: ArrayLike<number>, known: Spacing & Belief): NoiseModel {
  return fitNoises(values, known, [known])[0]!;
}

/** The same as each of some beliefs sees it: most of the work is done once for all. */
export function fitNoises(
  values: ArrayLike<number>,
  spacing: Spacing,
  beliefs: readonly Belief[],
): NoiseModel[] {
  const { period_s, lag_s } = spacing;
  const points = condense(values, MOST_POINTS);
  const spacing_s = period_s * Math.ceil(values.length / MOST_POINTS);
  const spectrum = points.length < 4 ? null : transform(points, spacing_s, lag_s);
  if (spectrum === null || !hasPower(spectrum)) {
    return beliefs.map(({ prior }) => priorModel(prior, (lag_s * lag_s) / period_s));
  }
  fitShapes(spectrum, lag_s, beliefs.some(({ wanders }) => wanders));
  return beliefs.map((belief) => {
    expectAirs(belief, lag_s, lag_s / (values.length * period_s));
    // The line has taken the first coefficient.
    return averageOf(spectrum.count - 1, belief, spacing);
  });
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
