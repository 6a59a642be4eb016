/** What the session has taught of the noise of each column, in log scale. */
import type { NoiseModel, NoisePrior } from '../../metrology/type-a/noise-model.ts';

/** Normal beliefs in ln(long-run variance / level², s) and ln(correlation time, s). */
export interface NoiseMemory {
  logLevel: number;
  logTime: number;
  /** Precision: 1/variance of the belief in the rig's typical logarithm. */
  precision: number;
}

/** What such rigs do before anything is known: 1.5 % of reading · √s, a factor of 2 either way. */
const RIG_LOG_LEVEL = Math.log(2.2e-4);
const RIG_VARIANCE = 2;
const RIG_LOG_TIME = Math.log(1.2);
const RIG_TIME_VARIANCE = 0.8;
/** Plateaus of one rig differ by this variance of the logarithm. */
const BETWEEN = 0.25;

export function createNoiseMemory(): NoiseMemory {
  return { logLevel: RIG_LOG_LEVEL, logTime: RIG_LOG_TIME, precision: 1 / RIG_VARIANCE };
}

export function priorOf(memory: NoiseMemory): NoisePrior {
  const known = 1 / memory.precision;
  return {
    logLevel: memory.logLevel,
    logLevelVariance: known + BETWEEN * (1 - known / RIG_VARIANCE),
    logTime: memory.logTime,
    logTimeVariance: Math.max((RIG_TIME_VARIANCE * known) / RIG_VARIANCE, 0.15),
  };
}

/** Takes in what a plateau's noise was found to be, given the prior that it was found with. */
export function learnNoise(memory: NoiseMemory, found: NoiseModel, prior: NoisePrior): void {
  const evidence = 1 / found.logLevelVariance - 1 / prior.logLevelVariance;
  if (evidence <= 0) return;
  const own = found.logLevel + (found.logLevel - prior.logLevel) / (prior.logLevelVariance * evidence);
  const weight = 1 / (1 / evidence + BETWEEN);
  const total = memory.precision + weight;
  memory.logLevel += ((own - memory.logLevel) * weight) / total;
  memory.logTime += ((Math.log(found.time_s) - memory.logTime) * weight) / total;
  // Rigs change (another fan, another room): what was learnt is never beyond revision.
  memory.precision = Math.min(total, 1 / 0.05);
}
