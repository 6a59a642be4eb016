/**
 * What is not known for sure of a rig, and random draws of it (JCGM 101:2008): the prediction is a
 * band, not a line. The draws come in as data and are the same for every angle, so that angles are
 * compared on one rig at a time.
 */
import { createRandom, normal, uniform, type Random } from '../virtual-rig/random.ts';
import { MIDDLE, type BenchRig, type BladeDoubt } from './bench-rig.ts';
import { widestChord_m } from './rotor.ts';
import type { Load } from './circuit.ts';

/** Standard uncertainties: as a share of the value, the blade angle in degrees. */
export interface RigUncertainty {
  readonly windSpeed: number;
  readonly angle_deg: number;
  readonly emfConstant: number;
  readonly windingResistance: number;
  readonly friction: number;
  readonly load: number;
  /** Of a blade's width. */
  readonly chord: number;
}

/**
 * Of a cheap anemometer, a printed protractor and a motor measured once (common practice, no
 * source).
 */
export const USUAL_UNCERTAINTY: RigUncertainty = {
  windSpeed: 0.05,
  angle_deg: 1,
  emfConstant: 0.03,
  windingResistance: 0.05,
  friction: 0.2,
  load: 0.05,
  chord: 0,
};

/** How far one draw lies from what is said of the rig: standard deviations, and the blades' doubt. */
export interface Draw {
  readonly windSpeed: number;
  readonly angle: number;
  readonly emfConstant: number;
  readonly windingResistance: number;
  readonly staticFriction: number;
  readonly runningFriction: number;
  readonly load: number;
  readonly chord: number;
  readonly blades: BladeDoubt;
}

/** Always the same: who asks again hears the same band. */
export function usualDraws(): Draw[] {
  return drawRigs(createRandom(1), 200);
}

/** The rig exactly as said. */
export const AS_SAID: Draw = {
  windSpeed: 0,
  angle: 0,
  emfConstant: 0,
  windingResistance: 0,
  staticFriction: 0,
  runningFriction: 0,
  load: 0,
  chord: 0,
  blades: MIDDLE,
};

export function drawRigs(random: Random, count: number): Draw[] {
  const draws = Array.from({ length: count }, () => ({
    windSpeed: normal(random),
    angle: normal(random),
    emfConstant: normal(random),
    windingResistance: normal(random),
    staticFriction: normal(random),
    runningFriction: normal(random),
    load: normal(random),
    blades: { broadside: 2 * uniform(random) - 1, smoothness: 2 * uniform(random) - 1 },
  }));
  return draws.map((draw) => ({ ...draw, chord: normal(random) }));
}

export interface DrawnRig {
  readonly rig: BenchRig;
  readonly angle_deg: number;
  readonly blades: BladeDoubt;
}

/** The rig and its blade angle as they may truly be. */
export function drawnRig(
  { rig, angle_deg }: { readonly rig: BenchRig; readonly angle_deg: number },
  u: RigUncertainty,
  draw: Draw,
): DrawnRig {
  const { generator, rotor } = rig;
  const widest_m = widestChord_m(rotor);
  return {
    rig: {
      ...rig,
      rotor: { ...rotor, chord_m: Math.min(off(rotor.chord_m, u.chord, draw.chord), widest_m) },
      windSpeed_mps: off(rig.windSpeed_mps, u.windSpeed, draw.windSpeed),
      generator: {
        emfConstant_Vsprad: off(generator.emfConstant_Vsprad, u.emfConstant, draw.emfConstant),
        resistance_Ohm: off(generator.resistance_Ohm, u.windingResistance, draw.windingResistance),
        staticTorque_Nm: off(generator.staticTorque_Nm, u.friction, draw.staticFriction),
        runningTorque_Nm: off(generator.runningTorque_Nm, u.friction, draw.runningFriction),
      },
      load: heavier(rig.load, off(1, u.load, draw.load)),
    },
    angle_deg: facing(angle_deg + u.angle_deg * draw.angle, rig.rotor.camber),
    blades: draw.blades,
  };
}

/** By so many relative standard deviations, but never below 0. */
function off(value: number, relative: number, deviations: number): number {
  return value * Math.exp(relative * deviations);
}

/** The same load with so many times its resistance. */
export function heavier(load: Load, factor: number): Load {
  return load.kind === 'resistor'
    ? { ...load, resistance_Ohm: load.resistance_Ohm * factor }
    : { ...load, ratedCurrent_A: load.ratedCurrent_A / factor };
}

/** Flat blades turned past flat or edge-on drive the rotor the other way round, just as well. */
function facing(angle_deg: number, camber: number): number {
  if (camber !== 0) return angle_deg;
  const turned = Math.abs(angle_deg) % 180;
  return turned > 90 ? 180 - turned : turned;
}
