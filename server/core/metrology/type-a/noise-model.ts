/** What is believed of a reading's noise, and what follows from it for means and slopes. */

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
