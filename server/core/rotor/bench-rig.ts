/** The rig as the prediction sees it; what is known of it, and how its blades meet the air. */
import type { Generator, Load } from './circuit.ts';
import { broadsideDrag, platePolar, type Polar } from './plate-polar.ts';
import type { RotorShape } from './rotor.ts';

export interface BenchRig {
  readonly airDensity_kgpm3: number;
  readonly windSpeed_mps: number;
  readonly rotor: RotorShape & {
    /** Height of the blade's arc over its chord; 0 is flat. */
    readonly camber: number;
  };
  readonly generator: Generator;
  readonly load: Load;
}

/** What of the blades' forces nobody knows at the bench; each 0 in the middle, from −1 to 1. */
export interface BladeDoubt {
  /** Of the drag square to the wind: −1 three quarters of a plate's of that length; 1 four thirds. */
  readonly broadside: number;
  /** Of the drag below stall: the same of what was measured. */
  readonly smoothness: number;
}

export const MIDDLE: BladeDoubt = { broadside: 0, smoothness: 0 };
const FARTHEST_FACTOR = 4 / 3;

export function bladePolar({ rotor }: BenchRig, doubt: BladeDoubt): Polar {
  const aspectRatio = (rotor.radius_m - rotor.hubRadius_m) / rotor.chord_m;
  return platePolar({
    camber: rotor.camber,
    broadsideDrag: broadsideDrag(aspectRatio) * FARTHEST_FACTOR ** doubt.broadside,
    smoothness: FARTHEST_FACTOR ** doubt.smoothness,
  });
}

/** ½ρAU², N: wind power over wind speed. */
export function windForce_N({ airDensity_kgpm3, windSpeed_mps, rotor }: BenchRig): number {
  return 0.5 * airDensity_kgpm3 * Math.PI * rotor.radius_m ** 2 * windSpeed_mps ** 2;
}

/** Of the wind through the disc that the blades sweep, W. */
export function windPower_W(rig: BenchRig): number {
  return windForce_N(rig) * rig.windSpeed_mps;
}
