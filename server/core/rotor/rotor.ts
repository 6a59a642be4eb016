/** A rotor of straight blades, all at one angle: its coefficients by blade element momentum. */
import { solveRing, type Ring, type RingFlow } from './annulus.ts';
import { endExponents } from './prandtl.ts';
import type { Polar } from './plate-polar.ts';

export interface RotorShape {
  readonly radius_m: number;
  readonly hubRadius_m: number;
  readonly chord_m: number;
  readonly blades: number;
  /** Air stands still outside it; null: the jet is wider than the rotor. */
  readonly jetRadius_m: number | null;
}

/** Wider blades would cover more than the whole disc: the model does not hold for them. */
export function widestChord_m({ radius_m, blades }: Pick<RotorShape, 'radius_m' | 'blades'>): number {
  return (Math.PI * radius_m) / blades;
}

/** Lengths in rotor radii. */
interface Station extends Ring {
  readonly radius: number;
  readonly width: number;
  readonly isInJet: boolean;
}

export type Blading = readonly Station[];

/** Torque and thrust relative to ½ρAU²R and ½ρAU². */
export interface RotorCoefficients {
  readonly torque: number;
  readonly thrust: number;
}

/** The load's power then differs by less than 1 % from that of many rings. */
const RINGS = 8;

/** @param angle_rad from the rotor plane; 0 flat in it, π/2 edge-on to the wind */
export function bladingOf(
  shape: RotorShape,
  angle_rad: number,
  polar: Polar,
  rings = RINGS,
): Blading {
  const { radius_m, hubRadius_m, chord_m, blades, jetRadius_m } = shape;
  const hub = hubRadius_m / radius_m;
  return Array.from({ length: rings }, (_, i) => {
    const [inner, outer] = [ringEdge(hub, i / rings), ringEdge(hub, (i + 1) / rings)];
    const radius = (inner + outer) / 2;
    return {
      radius,
      width: outer - inner,
      solidity: (blades * chord_m) / (2 * Math.PI * radius * radius_m),
      pitch_rad: angle_rad,
      polar,
      isInJet: jetRadius_m === null || radius * radius_m <= jetRadius_m,
      ...endExponents(blades, { radius, tip: 1, hub }),
    };
  });
}

/** Rings narrow towards the tip, where the loads fall steeply. */
function ringEdge(hub: number, share: number): number {
  return hub + (1 - hub) * Math.sin((Math.PI / 2) * share);
}

/** @param tipSpeedRatio from 0 on */
export function rotorCoefficients(blading: Blading, tipSpeedRatio: number): RotorCoefficients {
  let [torque, thrust] = [0, 0];
  for (const station of blading) {
    const { radius, width, solidity } = station;
    const force = (station.isInJet ? inJet : inStillAir)(station, tipSpeedRatio);
    torque += 2 * solidity * force.tangential * radius * radius * width;
    thrust += 2 * solidity * force.normal * radius * width;
  }
  return { torque, thrust };
}

type Force = Pick<RingFlow, 'normal' | 'tangential'>;

/** Force coefficients relative to the wind's speed instead of the blade's. */
function inJet(station: Station, tipSpeedRatio: number): Force {
  const stream = { axial: 1, tangential: tipSpeedRatio * station.radius };
  const { relativeSpeed, normal, tangential } = solveRing(station, stream);
  const pressure = relativeSpeed * relativeSpeed;
  return { normal: pressure * normal, tangential: pressure * tangential };
}

/** Blades that beat air at rest: without induction, which would make it a little less. */
function inStillAir(station: Station, tipSpeedRatio: number): Force {
  const { lift, drag } = station.polar(-station.pitch_rad);
  const pressure = (tipSpeedRatio * station.radius) ** 2;
  return { normal: pressure * lift, tangential: -pressure * drag };
}
