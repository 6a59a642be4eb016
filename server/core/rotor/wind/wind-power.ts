/** What the wind offers a rotor, and the most of it that any rotor can take. */

/** A. Betz (1920): 16/27 of the wind's power, at an axial induction of 1/3. */
export const BETZ_LIMIT = 16 / 27;

/** The whole disc within the tips, hub included, as the trade has it. */
export function discArea_m2(radius_m: number): number {
  return Math.PI * radius_m ** 2;
}

/**
 * ½ρA·(mean of v³): 4 m/s in air of 1.1993 kg/m³ through a disc of 0.4 m carry 4.82 W.
 * @param stream area_m2: through which the wind blows; meanCube_m3ps3: the mean of v³, not the cube
 * of the mean (mean-cube.ts)
 */
export function windPower_W(stream: {
  readonly airDensity_kgpm3: number;
  readonly area_m2: number;
  readonly meanCube_m3ps3: number;
}): number {
  return 0.5 * stream.airDensity_kgpm3 * stream.area_m2 * stream.meanCube_m3ps3;
}

/** C_p = 4a(1 − a)², of an ideal rotor that slows the wind by the share a and leaves no swirl. */
export function actuatorDiscCoefficient(axialInduction: number): number {
  return 4 * axialInduction * (1 - axialInduction) ** 2;
}
