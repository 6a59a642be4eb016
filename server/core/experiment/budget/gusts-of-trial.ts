/** The gusts' part in a trial's mean of v³: read by its own samples where these are fast enough. */
import type { MeasuredValue } from '../../metrology/measured-value.ts';
import { rectangular } from '../../instrument/tolerance.ts';
import {
  gustFactor,
  LEAST_GUST_READINGS_Hz,
  MOST_JET_TURBULENCE,
  readGustFactor,
  type GustFactor,
} from '../../rotor/wind/mean-cube.ts';
import type { Trial } from '../trial.ts';

export const GUSTS_FROM = [
  /** The trial's own samples. */
  'samples',
  /** What a fan's jet usually has: the wind meter gives too few new readings a second. */
  'slow wind meter',
  /** The same: nothing is known of the samples (readings typed in, earlier versions). */
  'usual',
] as const;

export interface TrialGusts extends GustFactor {
  readonly from: (typeof GUSTS_FROM)[number];
}

/** From none to the most that a fan's jet has. */
const USUAL: GustFactor = {
  value: (1 + gustFactor(MOST_JET_TURBULENCE)) / 2,
  standardUncertainty: rectangular((gustFactor(MOST_JET_TURBULENCE) - 1) / 2),
};

/** @param wind as it stands now */
export function gustsOfTrial(
  { windGusts, correction }: Pick<Trial, 'windGusts' | 'correction'>,
  wind: MeasuredValue,
): TrialGusts {
  if (windGusts === undefined) return { ...USUAL, from: 'usual' };
  const { meanCube_m3ps3, readings_Hz } = windGusts;
  if (readings_Hz < LEAST_GUST_READINGS_Hz) return { ...USUAL, from: 'slow wind meter' };
  const { value: mean_mps, degreesOfFreedom } = correction?.measured.windSpeed_mps ?? wind;
  const read = readGustFactor({ mean_mps, meanCube_m3ps3, degreesOfFreedom });
  // Put right afterwards, readings scatter by the gain as much about another mean: TI² goes with it.
  const gain = correction?.by.windSpeed_mps?.gain ?? 1;
  const stretch = ((gain * mean_mps) / wind.value) ** 2;
  return {
    value: 1 + (read.value - 1) * stretch,
    standardUncertainty: read.standardUncertainty * stretch,
    from: 'samples',
  };
}
