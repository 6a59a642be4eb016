/**
 * The plant of the virtual rig: a fan's jet with lag, droop, turbulence and slow wander, a rotor
 * with inertia and windage, a generator with friction, a lamp or a resistor. Advanced in fixed
 * steps. Without a random source it is the noise-free twin that gives the true course: same
 * events, and in place of the gusts what they add to the mean torque, so that its level is the mean
 * level of the noisy plant.
 */
import { loadResistance_Ohm, type Generator, type Load } from '../rotor/circuit.ts';
import { advanceColouredNoise, createColouredNoise } from './coloured-noise.ts';
import type { ColouredNoise, ColouredNoiseParameters } from './coloured-noise.ts';
import { gustTorque_Nm } from './gusts.ts';
import { eddiesOf, wanderOf, type Jet } from './jet.ts';
import type { Random } from './random.ts';
import { aerodynamicTorque_Nm, torqueLine } from './rotor.ts';
import type { Flow, Rotor, TorqueLine } from './rotor.ts';

export interface PlantParameters {
  readonly airDensity_kgpm3: number;
  readonly jet: Jet;
  readonly rotor: Rotor;
  readonly generator: RipplingGenerator;
  readonly load: Load;
}

export interface RipplingGenerator extends Generator {
  /** Amplitude of the commutation ripple relative to the electromotive force. */
  readonly ripple: number;
  /** Ripple periods in one turn: twice the commutator's segments where they are odd. */
  readonly ripplesPerTurn: number;
}

/** What people and fans do to the plant. */
export type PlantEvent =
  /** The wind that the fan is set to; 0 is off. */
  | { readonly kind: 'fan'; readonly wind_mps: number }
  /** Blades set, or slipped, to this angle from the rotor plane. */
  | { readonly kind: 'angle'; readonly angle_deg: number }
  /** Blades swapped or counted anew. */
  | { readonly kind: 'rotor'; readonly rotor: Rotor }
  /** The share of the wind that gets past a hand or a person; 1 is free. */
  | { readonly kind: 'obstruction'; readonly passes: number }
  /** The fan's speed creeps by this share per second; 0 ends it. */
  | { readonly kind: 'creep'; readonly rate_per_s: number }
  /** Stall hunting: the wind's grip comes and goes by this share with this period; 0 ends it. */
  | { readonly kind: 'hunting'; readonly amplitude: number; readonly period_s: number };

export interface Plant {
  parameters: PlantParameters;
  angle_deg: number;
  readonly step_s: number;
  readonly random: Random | null;
  /** Gusts relative to the wind: at the rotor, at both, and at the anemometer; none in the twin. */
  readonly eddies: readonly ColouredNoise[];
  readonly wander: readonly ColouredNoise[];
  readonly pointEddies: readonly ColouredNoise[];
  line: TorqueLine;
  fanSetting_mps: number;
  fanWind_mps: number;
  fanWarmth: number;
  passes: number;
  passesNow: number;
  creep_per_s: number;
  huntingAmplitude: number;
  huntingPeriod_s: number;
  huntingPhase_rad: number;
  rotorSpeed_radps: number;
  rotorAngle_rad: number;
  filament_Ohm: number;
  /** Wind at the anemometer's point. */
  pointWind_mps: number;
  emf_V: number;
  voltage_V: number;
  current_A: number;
}

/** Time that the jet needs to fill or empty behind a hand. */
const OBSTRUCTION_LAG_S = 0.15;
/** Time constant of a small filament's temperature. */
const FILAMENT_LAG_S = 0.12;
/** A plant at rest with the fan off. */
export function createPlant(
  parameters: PlantParameters,
  angle_deg: number,
  step_s: number,
  random: Random | null,
): Plant {
  const { jet, rotor, load } = parameters;
  const noises = (of: readonly ColouredNoiseParameters[]): ColouredNoise[] =>
    random ? of.map((one) => createColouredNoise(one, step_s, random)) : [];
  return {
    parameters,
    angle_deg,
    step_s,
    random,
    eddies: noises(eddiesOf(jet)),
    wander: noises([wanderOf(jet)]),
    pointEddies: noises([
      { standardDeviation: jet.pointIntensity, correlationTime_s: jet.integralTime_s },
    ]),
    line: torqueLine(rotor, angle_deg),
    fanSetting_mps: 0,
    fanWind_mps: 0,
    fanWarmth: 0,
    passes: 1,
    passesNow: 1,
    creep_per_s: 0,
    huntingAmplitude: 0,
    huntingPeriod_s: 1,
    huntingPhase_rad: 0,
    rotorSpeed_radps: 0,
    rotorAngle_rad: 0,
    filament_Ohm: loadResistance_Ohm(load, 0),
    pointWind_mps: 0,
    emf_V: 0,
    voltage_V: 0,
    current_A: 0,
  };
}

export function applyEvent(plant: Plant, event: PlantEvent): void {
  switch (event.kind) {
    case 'fan':
      if (event.wind_mps === 0) plant.fanWarmth = 0;
      plant.fanSetting_mps = event.wind_mps;
      return;
    case 'angle':
      plant.angle_deg = event.angle_deg;
      plant.line = torqueLine(plant.parameters.rotor, event.angle_deg);
      return;
    case 'rotor':
      plant.parameters = { ...plant.parameters, rotor: event.rotor };
      plant.line = torqueLine(event.rotor, plant.angle_deg);
      return;
    case 'obstruction':
      plant.passes = event.passes;
      return;
    case 'creep':
      plant.creep_per_s = event.rate_per_s;
      return;
    case 'hunting':
      plant.huntingAmplitude = event.amplitude;
      plant.huntingPeriod_s = event.period_s;
      return;
  }
}

/** One step of time. */
export function advancePlant(plant: Plant): void {
  const rotorWind_mps = advanceJet(plant);
  advanceRotor(plant, rotorWind_mps);
  advanceCircuit(plant);
}

/** Moves the jet on and returns the wind that the rotor feels, m/s. */
function advanceJet(plant: Plant): number {
  const { step_s: step, random } = plant;
  const { jet } = plant.parameters;
  plant.fanSetting_mps *= 1 + plant.creep_per_s * step;
  if (plant.fanSetting_mps > 0) plant.fanWarmth += ((1 - plant.fanWarmth) * step) / jet.droopTime_s;
  const target_mps = plant.fanSetting_mps * (1 - jet.droop * plant.fanWarmth);
  plant.fanWind_mps += ((target_mps - plant.fanWind_mps) * step) / jet.fanLag_s;
  plant.passesNow += ((plant.passes - plant.passesNow) * step) / OBSTRUCTION_LAG_S;
  plant.huntingPhase_rad += (2 * Math.PI * step) / plant.huntingPeriod_s;

  const gusts = advanceAll(plant.eddies, random);
  const slow = advanceAll(plant.wander, random);
  const pointGusts = advanceAll(plant.pointEddies, random);
  const wind_mps = plant.fanWind_mps * plant.passesNow;
  plant.pointWind_mps = Math.max(0, wind_mps * (1 + slow + pointGusts));
  const grip = 1 + plant.huntingAmplitude * Math.sin(plant.huntingPhase_rad);
  return Math.max(0, wind_mps * grip * (1 + slow + gusts));
}

/** Moves the noises on and returns their sum. */
function advanceAll(noises: readonly ColouredNoise[], random: Random | null): number {
  let sum = 0;
  if (random) {
    for (const noise of noises) {
      advanceColouredNoise(noise, random);
      sum += noise.value;
    }
  }
  return sum;
}

function advanceRotor(plant: Plant, wind_mps: number): void {
  const { rotor, generator, airDensity_kgpm3 } = plant.parameters;
  const flow = { airDensity_kgpm3, wind_mps };
  const speed = plant.rotorSpeed_radps;
  const drive =
    aerodynamicTorque_Nm(rotor, plant.line, flow, speed) +
    (plant.random ? 0 : meanGustTorque_Nm(plant.parameters, plant, flow)) -
    generator.emfConstant_Vsprad * plant.current_A;
  const stands = speed === 0 && drive <= generator.staticTorque_Nm;
  const torque = stands ? 0 : drive - generator.runningTorque_Nm;
  plant.rotorSpeed_radps = Math.max(0, speed + (torque / rotor.inertia_kgm2) * plant.step_s);
  plant.rotorAngle_rad = (plant.rotorAngle_rad + speed * plant.step_s) % (2 * Math.PI);
}

function advanceCircuit(plant: Plant): void {
  const { generator, load } = plant.parameters;
  plant.emf_V = generator.emfConstant_Vsprad * plant.rotorSpeed_radps;
  plant.current_A = plant.emf_V / (generator.resistance_Ohm + plant.filament_Ohm);
  plant.voltage_V = plant.current_A * plant.filament_Ohm;
  const settled_Ohm = loadResistance_Ohm(load, plant.voltage_V);
  plant.filament_Ohm += ((settled_Ohm - plant.filament_Ohm) * plant.step_s) / FILAMENT_LAG_S;
}

/** What the gusts add to the mean torque at this working state, N·m. */
export function meanGustTorque_Nm(
  { jet, rotor, generator }: PlantParameters,
  state: Pick<Plant, 'line' | 'rotorSpeed_radps' | 'filament_Ohm'>,
  flow: Flow,
): number {
  return gustTorque_Nm({
    rotor,
    flow,
    line: state.line,
    speed_radps: state.rotorSpeed_radps,
    loadDamping_Nms:
      generator.emfConstant_Vsprad ** 2 / (generator.resistance_Ohm + state.filament_Ohm),
    gusts: [...eddiesOf(jet), wanderOf(jet)],
  });
}
