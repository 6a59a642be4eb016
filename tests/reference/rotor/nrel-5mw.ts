/**
 * The NREL 5 MW reference rotor, set up from its report: the kernel's rings with the rotor's own
 * chords, twists and sections, and the geometry of cone, tilt and shear, which the rotors at the
 * bench have not.
 */
import { solveRing } from '#core/rotor/annulus.ts';
import { endExponents } from '#core/rotor/prandtl.ts';
import type { Polar } from '#core/rotor/plate-polar.ts';
import reference from './fixtures/nrel-5mw.json' with { type: 'json' };

const TIP_M = 63;
const HUB_M = 1.5;
const BLADES = 3;
const HUB_HEIGHT_M = 90;
const DEGREE = Math.PI / 180;

type Row = readonly number[];

/** Between the rows of a table of angle of attack (degrees), lift and drag. */
function tabulated(rows: readonly Row[]): Polar {
  return (angle_rad) => {
    const angle_deg = angle_rad / DEGREE;
    const above = rows.findIndex(([edge]) => edge! >= angle_deg);
    const [[x1, l1, d1], [x2, l2, d2]] = [rows[above - 1] as [number, number, number], rows[above] as [number, number, number]];
    const share = (angle_deg - x1) / (x2 - x1);
    return { lift: l1 + share * (l2 - l1), drag: d1 + share * (d2 - d1) };
  };
}

const polars = new Map(Object.entries(reference.polars).map(([name, rows]) => [name, tabulated(rows)]));

export interface Setting {
  readonly cone_deg: number;
  readonly tilt_deg: number;
  readonly shearExponent: number;
  readonly azimuths_deg: readonly number[];
}

/** Power and thrust coefficients at a tip speed ratio, mean over the azimuths. */
export function referenceRotor(tipSpeedRatio: number, setting: Setting): { power: number; thrust: number } {
  const each = setting.azimuths_deg.map((azimuth_deg) => atAzimuth(tipSpeedRatio, setting, azimuth_deg * DEGREE));
  const mean = (key: 'power' | 'thrust'): number =>
    each.reduce((sum, one) => sum + one[key], 0) / each.length;
  return { power: mean('power'), thrust: mean('thrust') };
}

/** Wind 1, density 1; loads fall to nothing at hub and tip, trapezia in between. */
function atAzimuth(tipSpeedRatio: number, setting: Setting, azimuth_rad: number): { power: number; thrust: number } {
  const cosCone = Math.cos(setting.cone_deg * DEGREE);
  const speed = tipSpeedRatio / (TIP_M * cosCone);
  const loads = reference.radius_m.map((radius, i) => {
    const ring = {
      solidity: (BLADES * reference.chord_m[i]!) / (2 * Math.PI * radius),
      pitch_rad: reference.twist_deg[i]! * DEGREE,
      polar: polars.get(reference.section[i]!)!,
      ...endExponents(BLADES, { radius, tip: TIP_M, hub: HUB_M }),
    };
    const stream = streamAt(radius, speed, setting, azimuth_rad);
    const { relativeSpeed, normal, tangential } = solveRing(ring, stream);
    const perLength = 0.5 * relativeSpeed ** 2 * BLADES * reference.chord_m[i]!;
    return { radius, normal: perLength * normal, turning: perLength * tangential };
  });
  const ends = { normal: 0, turning: 0 };
  const whole = [{ radius: HUB_M, ...ends }, ...loads, { radius: TIP_M, ...ends }];
  let [torque, thrust] = [0, 0];
  for (let i = 1; i < whole.length; i++) {
    const [inner, outer] = [whole[i - 1]!, whole[i]!];
    const step = (outer.radius - inner.radius) / 2;
    thrust += step * (inner.normal + outer.normal) * cosCone;
    torque += step * (inner.turning * inner.radius + outer.turning * outer.radius) * cosCone;
  }
  const area = Math.PI * (TIP_M * cosCone) ** 2;
  return { power: (torque * speed) / (0.5 * area), thrust: thrust / (0.5 * area) };
}

/** What the blade meets at this azimuth (0 up), blades coned towards the wind, shaft tilted up. */
function streamAt(radius: number, speed: number, setting: Setting, azimuth_rad: number): { axial: number; tangential: number } {
  const [cone, tilt] = [setting.cone_deg * DEGREE, setting.tilt_deg * DEGREE];
  const [up, across] = [Math.cos(azimuth_rad), Math.sin(azimuth_rad)];
  const height = radius * Math.cos(cone) * up * Math.cos(tilt) + radius * Math.sin(cone) * Math.sin(tilt);
  const wind = (1 + height / HUB_HEIGHT_M) ** setting.shearExponent;
  return {
    axial: wind * (Math.sin(tilt) * up * Math.sin(cone) + Math.cos(tilt) * Math.cos(cone)),
    tangential: speed * radius * Math.cos(cone) + wind * Math.sin(tilt) * across,
  };
}
