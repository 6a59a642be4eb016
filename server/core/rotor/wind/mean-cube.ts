/**
 * The mean of v³. Power goes with the cube, so gusts carry more than lulls lack: for a wind that is
 * distributed symmetrically, mean(v³) = v̄³(1 + 3·TI²) with TI = s/v̄, exactly.
 */

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

/** Of a fan's jet, averaged over a rotor: turbulence up to here (common practice, no source). */
export const MOST_JET_TURBULENCE = 0.1;
