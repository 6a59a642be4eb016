/**
 * From a few readings across the rotor to the wind that the whole of it meets. A fan's jet is faster
 * in one ring than in another, so the anemometer's one place does not stand for the rotor. The rotor
 * is cut into rings of equal area, and the wind is read in the middle (by area) of each: then plain
 * means are means over the area. (Rules for ducts put points near the wall; a jet has none.)
 */
import { z } from 'zod';
import { meanCube_m3ps3 } from './mean-cube.ts';

const WindSchema = z.number().positive().max(40);
export const MOST_RINGS = 12;

export const TraverseSchema = z
  .strictObject({
    /** One reading a ring, from the axis outwards; at the radii of equalAreaRadii_m. */
    rings_mps: z.array(WindSchema).min(2).max(MOST_RINGS).readonly(),
    /** Read just before or after, at the place where the anemometer stands in the trials. */
    atPlace_mps: WindSchema,
  })
  .readonly();
export type Traverse = z.infer<typeof TraverseSchema>;

/**
 * Relative standard uncertainty of the factor from place to rotor: the jet wanders between readings
 * that are taken one after the other (common practice, no source).
 */
export const PLACE_UNCERTAINTY = 0.02;

/** What the blades sweep. */
export interface SweptRing {
  /** To the tip of a blade. */
  readonly radius_m: number;
  /** Where the blades begin. */
  readonly hubRadius_m: number;
}

/** r² grows by equal steps: r_i² = r_hub² + (R² − r_hub²)(2i − 1)/(2n), i = 1 … n. */
export function equalAreaRadii_m({ radius_m, hubRadius_m }: SweptRing, rings: number): number[] {
  const [inner, outer] = [hubRadius_m ** 2, radius_m ** 2];
  return Array.from({ length: rings }, (_, i) => {
    return Math.sqrt(inner + ((outer - inner) * (2 * i + 1)) / (2 * rings));
  });
}

export interface RotorWind {
  /** Mean over the area. */
  readonly mean_mps: number;
  /** The even wind that would carry as much power: (mean of v³)^(1/3). */
  readonly energyWind_mps: number;
  /** Mean of v³ over the cube of the mean; 1 for an even wind. */
  readonly energyFactor: number;
  /** What the anemometer reads at its place is to be multiplied by to get the energy wind. */
  readonly placeFactor: number;
}

export function rotorWind({ rings_mps, atPlace_mps }: Traverse): RotorWind {
  const mean_mps = rings_mps.reduce((sum, one) => sum + one, 0) / rings_mps.length;
  const energyWind_mps = Math.cbrt(meanCube_m3ps3(rings_mps));
  return {
    mean_mps,
    energyWind_mps,
    energyFactor: (energyWind_mps / mean_mps) ** 3,
    placeFactor: energyWind_mps / atPlace_mps,
  };
}
