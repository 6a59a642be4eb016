/** What the session has taught of the noise of each column, in log scale. */
import type { NoiseModel, NoisePrior } from '../../metrology/type-a/noise-model.ts';
import type { Quantity } from '../sample.ts';

/** Normal beliefs in ln(long-run variance / level², s), ln(time, s) and ln(white share). */
export interface NoiseMemory {
  logLevel: number;
  logTime: number;
  logShare: number;
  /** Precision: 1/variance of the belief in the rig's typical logarithm. */
  precision: number;
  /** ln of the odds for noise that does not pass the rotor. */
  logOwn: number;
  /** Variance of the logarithm from one stretch to the next beyond what is known. */
  readonly between: number;
}

/** What such rigs do before anything is known: 1.5 %·√s of the level, within a factor of 2. */
const RIG_LOG_LEVEL = Math.log(2.2e-4);
const RIG_VARIANCE = 2;
/** Power deviates twice as far as voltage does: current goes with it. */
const LOG_POWER = Math.log(4);
const RIG_LOG_TIME = Math.log(0.5);
const RIG_TIME_VARIANCE = 0.8;
const RIG_LOG_SHARE = Math.log(0.005);
/**
 * Plateaus of one rig differ by this variance of the logarithm: a rotor that runs free passes gusts
 * on to power by a power of the wind below two, one that its load holds back by nearly four.
 */
const BETWEEN = 0.4;
/** A stretch far noisier than expected counts only up to here: it may hold a change. Deviations. */
const MOST_SURPRISING = 2;
/**
 * Whether noise passes the rotor is a trait of the rig: the odds add up from stretch to stretch. No
 * one stretch counts for more than this (spectra are models), and no rig is beyond revision.
 */
const MOST_OWN_EVIDENCE = 1.5;
const LEAST_LOG_OWN = -3;
const MOST_LOG_OWN = 4;

export function createNoiseMemory(quantity: Quantity = 'voltage_V'): NoiseMemory {
  return {
    logLevel: RIG_LOG_LEVEL + (quantity === 'power_W' ? LOG_POWER : 0),
    logTime: RIG_LOG_TIME,
    logShare: RIG_LOG_SHARE,
    precision: 1 / RIG_VARIANCE,
    logOwn: 0,
    between: BETWEEN,
  };
}

export function priorOf(memory: NoiseMemory): NoisePrior {
  const known = 1 / memory.precision;
  return {
    logLevel: memory.logLevel,
    logLevelVariance: known + memory.between * (1 - known / RIG_VARIANCE),
    logTime: memory.logTime,
    logTimeVariance: Math.max((RIG_TIME_VARIANCE * known) / RIG_VARIANCE, 0.15),
    logOwn: memory.logOwn,
  };
}

/** A memory for one plateau, which has one noise of its own; the session's is where it starts. */
export function memoryWithin(session: NoiseMemory): NoiseMemory {
  return { ...session, precision: 1 / priorOf(session).logLevelVariance, between: 0 };
}

/** The noise that the memory alone would expect. */
export function expectedNoise(memory: NoiseMemory, raise_s: number): NoiseModel {
  const { logLevel, logLevelVariance } = priorOf(memory);
  const time_s = Math.exp(memory.logTime);
  const whiteShare = Math.exp(memory.logShare);
  return { logLevel, logLevelVariance, time_s, whiteShare, raise_s, ownEvidence: 0 };
}

/** No noisier than the memory finds believable: a change must not pass for noise. */
export function believable(memory: NoiseMemory, noise: NoiseModel): NoiseModel {
  const { logLevel, logLevelVariance } = priorOf(memory);
  const most = logLevel + MOST_SURPRISING * Math.sqrt(logLevelVariance);
  return noise.logLevel <= most ? noise : { ...noise, logLevel: most };
}

function within(value: number, least: number, most: number): number {
  return Math.min(Math.max(value, least), most);
}

/** Takes in how strongly a stretch speaks for noise that does not pass the rotor. */
export function learnOwn(memory: NoiseMemory, { ownEvidence }: NoiseModel): void {
  const own = within(ownEvidence, -MOST_OWN_EVIDENCE, MOST_OWN_EVIDENCE);
  memory.logOwn = within(memory.logOwn + own, LEAST_LOG_OWN, MOST_LOG_OWN);
}

/** Takes in what a stretch's noise was found to be, given the prior that it was found with. */
export function learnNoise(memory: NoiseMemory, found: NoiseModel, prior: NoisePrior): void {
  const evidence = 1 / found.logLevelVariance - 1 / prior.logLevelVariance;
  if (evidence <= 0) return;
  const pull = (found.logLevel - prior.logLevel) / (prior.logLevelVariance * evidence);
  const seen = found.logLevel + pull;
  const spread = Math.sqrt(1 / memory.precision + 1 / evidence + memory.between);
  const own = Math.min(seen, memory.logLevel + MOST_SURPRISING * spread);
  const weight = 1 / (1 / evidence + memory.between);
  const total = memory.precision + weight;
  memory.logLevel += ((own - memory.logLevel) * weight) / total;
  memory.logTime += ((Math.log(found.time_s) - memory.logTime) * weight) / total;
  memory.logShare += ((Math.log(found.whiteShare) - memory.logShare) * weight) / total;
  // Rigs change (another fan, another room): what was learnt is never beyond revision.
  memory.precision = Math.min(total, 1 / 0.05);
}
