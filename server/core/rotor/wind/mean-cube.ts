/**
 * The mean of v³. Power goes with the cube, so gusts carry more than lulls lack: for a wind that is
 * distributed symmetrically, mean(v³) = v̄³(1 + 3·TI²) with TI = s/v̄, exactly.
 */
import { rectangular } from '../../instrument/tolerance.ts';

/** From readings at one place; m³/s³. NaN where there are none. */
export function meanCube_m3ps3(readings_mps: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < readings_mps.length; i += 1) sum += (readings_mps[i] ?? NaN) ** 3;
  return sum / readings_mps.length;
}

/** Mean of v³ over the cube of the mean, from the turbulence intensity TI = s/v̄. */
export function gustFactor(turbulenceIntensity: number): number {
  return 1 + 3 * turbulenceIntensity ** 2;
}

/** A wind meter that gives fewer new readings a second averages gusts away (common practice). */
export const LEAST_GUST_READINGS_Hz = 5;

/** Mean of v³ over the cube of the mean, with its standard uncertainty. */
export interface GustFactor {
  readonly value: number;
  readonly standardUncertainty: number;
}

/**
 * As the wind meter has read it. How much the part above 1 scatters goes with that of a variance,
 * √(2/ν) (JCGM 100:2008 (GUM), E.4.3); and as far as all of that part may be the wind meter's own
 * noise, and as much again may have escaped it (common practice, no source).
 * @param degreesOfFreedom of the mean wind's own scatter
 */
export function readGustFactor(read: {
  readonly mean_mps: number;
  readonly meanCube_m3ps3: number;
  readonly degreesOfFreedom: number;
}): GustFactor {
  const { mean_mps, meanCube_m3ps3, degreesOfFreedom } = read;
  const value = Math.max(meanCube_m3ps3 / mean_mps ** 3, 1);
  const scatter = Math.sqrt(2 / Math.max(degreesOfFreedom, 1));
  return { value, standardUncertainty: (value - 1) * Math.hypot(scatter, rectangular(1)) };
}

/** Of a fan's jet, averaged over a rotor: turbulence up to here (common practice, no source). */
export const MOST_JET_TURBULENCE = 0.1;
