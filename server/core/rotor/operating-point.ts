/**
 * Where a rotor comes to rest: the air's torque against friction and what the generator holds
 * back. Looked for from standstill upwards, as the rig itself goes: it starts only against its
 * static friction, and stays at the first speed at which the torques balance and small changes die
 * out. There may be another, which it reaches only when spun by hand.
 */
import { rootInside } from '../root.ts';
import { bladePolar, MIDDLE, windForce_N, type BenchRig, type BladeDoubt } from './bench-rig.ts';
import { steadyCircuit } from './circuit.ts';
import { bladingOf, rotorCoefficients, type Blading } from './rotor.ts';

export interface OperatingPoint {
  readonly tipSpeedRatio: number;
  readonly rotorSpeed_radps: number;
  /** Of the air on the rotor, in balance with what brakes it. */
  readonly torque_Nm: number;
  readonly voltage_V: number;
  readonly current_A: number;
}

export interface Operation {
  /** By itself, from standstill. */
  readonly starts: boolean;
  /** That it reaches by itself; at rest where it does not start. */
  readonly point: OperatingPoint;
}

/** A rig with its blades set. */
export interface SetRig {
  readonly rig: BenchRig;
  readonly blading: Blading;
}

export const AT_REST: OperatingPoint = {
  tipSpeedRatio: 0,
  rotorSpeed_radps: 0,
  torque_Nm: 0,
  voltage_V: 0,
  current_A: 0,
};

/** @param angle_deg from the rotor plane; 0 flat in it, 90 edge-on to the wind */
export function setBlades(rig: BenchRig, angle_deg: number, doubt: BladeDoubt = MIDDLE): SetRig {
  const polar = bladePolar(rig, doubt);
  return { rig, blading: bladingOf(rig.rotor, (angle_deg * Math.PI) / 180, polar) };
}

export function operate(set: SetRig): Operation {
  const standing_Nm = airTorque_Nm(set, 0);
  if (!overcomesFriction(set, standing_Nm)) return { starts: false, point: AT_REST };
  const reached = stableTipSpeedRatios(set, standing_Nm).next();
  if (reached.done) return { starts: false, point: AT_REST };
  return { starts: true, point: pointAt(set, reached.value) };
}

/** The fastest speed that it keeps once it has been spun by hand; null: none. */
export function whenPushed(set: SetRig): OperatingPoint | null {
  const fastest = [...stableTipSpeedRatios(set, airTorque_Nm(set, 0))].at(-1);
  return fastest === undefined ? null : pointAt(set, fastest);
}

export function startsByItself(set: SetRig): boolean {
  return overcomesFriction(set, airTorque_Nm(set, 0));
}

/** @param standing_Nm the air's torque on blades that stand still */
function overcomesFriction({ rig }: SetRig, standing_Nm: number): boolean {
  const { staticTorque_Nm, runningTorque_Nm } = rig.generator;
  const rounding_Nm = ROUNDING * torqueScale_Nm(rig);
  return standing_Nm > Math.max(staticTorque_Nm, runningTorque_Nm) + rounding_Nm;
}

/** Torque coefficient that may be nothing but the arithmetic's. */
const ROUNDING = 1e-9;

/**
 * Inflow angles at the tip of an untouched wind at which the torques are compared, degrees: steps
 * that no hump of a blade's lift fits between.
 */
const LOOKED_AT_DEG = [
  80, 70, 60, 52, 46, 40, 35, 30, 26, 22, 18, 15, 12, 10, 8, 6, 5, 4, 3, 2, 1.5, 1, 0.5,
];
const TIP_SPEED_RATIOS = LOOKED_AT_DEG.map((inflow) => 1 / Math.tan((inflow * Math.PI) / 180));

/** Where the torque left over falls through 0, from standstill upwards. */
function* stableTipSpeedRatios(set: SetRig, standing_Nm: number): Generator<number, undefined> {
  const left = (tipSpeedRatio: number): number => torqueLeft_Nm(set, tipSpeedRatio);
  let [low, atLow] = [0, standing_Nm - brakingTorque_Nm(set.rig, 0)];
  for (const high of TIP_SPEED_RATIOS) {
    const atHigh = left(high);
    if (atLow > 0 && atHigh <= 0) {
      const closeEnough = low === 0 ? CLOSE_AT_STANDSTILL : CLOSE_ENOUGH;
      yield rootInside({ low, high, atLow, atHigh }, left, closeEnough);
    }
    [low, atLow] = [high, atHigh];
  }
}

/** Relative to the upper end of the interval. */
const CLOSE_ENOUGH = 1e-6;
/** A rotor that a strong generator holds all but still: the interval is wide beside its speed. */
const CLOSE_AT_STANDSTILL = 1e-15;

/** For acceleration, at a speed at which the rotor turns. */
function torqueLeft_Nm(set: SetRig, tipSpeedRatio: number): number {
  return airTorque_Nm(set, tipSpeedRatio) - brakingTorque_Nm(set.rig, tipSpeedRatio);
}

function brakingTorque_Nm(rig: BenchRig, tipSpeedRatio: number): number {
  const { emfConstant_Vsprad, runningTorque_Nm } = rig.generator;
  return emfConstant_Vsprad * circuitAt(rig, tipSpeedRatio).current_A + runningTorque_Nm;
}

/** Of the air on the rotor. */
export function airTorque_Nm({ rig, blading }: SetRig, tipSpeedRatio: number): number {
  return torqueScale_Nm(rig) * rotorCoefficients(blading, tipSpeedRatio).torque;
}

function torqueScale_Nm(rig: BenchRig): number {
  return windForce_N(rig) * rig.rotor.radius_m;
}

function circuitAt(rig: BenchRig, tipSpeedRatio: number): { voltage_V: number; current_A: number } {
  const emf_V = rig.generator.emfConstant_Vsprad * rotorSpeed_radps(rig, tipSpeedRatio);
  return steadyCircuit(rig.generator, rig.load, emf_V);
}

function rotorSpeed_radps({ rotor, windSpeed_mps }: BenchRig, tipSpeedRatio: number): number {
  return (tipSpeedRatio * windSpeed_mps) / rotor.radius_m;
}

function pointAt(set: SetRig, tipSpeedRatio: number): OperatingPoint {
  const { voltage_V, current_A } = circuitAt(set.rig, tipSpeedRatio);
  return {
    tipSpeedRatio,
    rotorSpeed_radps: rotorSpeed_radps(set.rig, tipSpeedRatio),
    torque_Nm: brakingTorque_Nm(set.rig, tipSpeedRatio),
    voltage_V,
    current_A,
  };
}
