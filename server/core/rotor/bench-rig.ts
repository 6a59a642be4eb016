/** The rig as the prediction sees it; what is known of it, and how its blades meet the air. */
import type { Generator, Load } from './circuit.ts';
import { broadsideDrag, platePolar, type Polar } from './plate-polar.ts';
import type { RotorShape } from './rotor.ts';
import { discArea_m2, windPower_W as streamPower_W } from './wind/wind-power.ts';

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

/** Of the wind through the disc within the tips, hub included, W. */
export function windPower_W({ airDensity_kgpm3, windSpeed_mps, rotor }: BenchRig): number {
  const area_m2 = discArea_m2(rotor.radius_m);
  return streamPower_W({ airDensity_kgpm3, area_m2, meanCube_m3ps3: windSpeed_mps ** 3 });
}

/** ½ρAU², N */
export function windForce_N(rig: BenchRig): number {
  return windPower_W(rig) / rig.windSpeed_mps;
}
