/** Draws the rigs of the benchmark: small rotors of all sorts, within what a classroom has. */
import type { PlantParameters } from '#core/virtual-rig/plant.ts';
import { damping_Nms } from '#core/virtual-rig/steady-state.ts';
import type { Jet } from '#core/virtual-rig/jet.ts';
import { between, chance, logBetween, type Random } from '#core/virtual-rig/random.ts';
import type { RigParameters } from '#core/virtual-rig/rig.ts';
import { torqueLine, type Rotor } from '#core/virtual-rig/rotor.ts';
import type { AnemometerParameters } from '#core/virtual-rig/anemometer.ts';

/** What a kind of recording may ask of the rig; relative sizes refer to the reading. */
export interface RigWishes {
  /** Time constant at the nominal wind. */
  readonly timeConstant_s: number;
  /** Standard deviation of the voltage from turbulence. */
  readonly noise: number;
  readonly integralTime_s: number;
  readonly wander: number;
  readonly droop: number;
  readonly ripple: number;
  /** Converter step relative to the nominal voltage. */
  readonly converterStep: number;
  readonly spikeRate_Hz: number;
  readonly dropoutRate_Hz: number;
  readonly anemometer: boolean;
}

export interface DrawnRig {
  readonly parameters: RigParameters;
  readonly wind_mps: number;
  readonly current: boolean;
  readonly stamping: Stamping;
}

/** How the board's clock and the way to the laptop treat the samples. */
export interface Stamping {
  /** The board's true rate over the one asked for. */
  readonly pace: number;
  /** Times are rounded to this; 0: not at all. */
  readonly resolution_s: number;
  /** Times are off by up to this share of a sample period. */
  readonly jitter: number;
  /** Missing readings are lines that never came. */
  readonly linesLost: boolean;
}

export function ordinaryWishes(random: Random): RigWishes {
  return {
    timeConstant_s: logBetween(random, 0.5, 3),
    noise: logBetween(random, 0.004, 0.02),
    integralTime_s: logBetween(random, 0.05, 0.3),
    wander: between(random, 0.001, 0.004),
    droop: between(random, 0, 0.008),
    ripple: between(random, 0, 0.02),
    converterStep: logBetween(random, 0.0005, 0.008),
    spikeRate_Hz: 0,
    dropoutRate_Hz: 0,
    anemometer: chance(random, 0.6),
  };
}

export function drawRig(wishes: RigWishes, random: Random): DrawnRig {
  const wind_mps = between(random, 2.5, 5.5);
  const angle_deg = between(random, 15, 45);
  const rotor = drawRotor(random);
  const voltage_V = logBetween(random, 0.15, 12);
  const plant: PlantParameters = {
    airDensity_kgpm3: between(random, 1.05, 1.25),
    jet: drawJet(wishes, random),
    ...drawTrain({ rotor, wind_mps, angle_deg, voltage_V, ripple: wishes.ripple }, random),
  };
  const inertia_kgm2 = wishes.timeConstant_s * damping_Nms(plant, { wind_mps, angle_deg });
  const parameters: RigParameters = {
    plant: { ...plant, rotor: { ...plant.rotor, inertia_kgm2 } },
    angle_deg,
    anemometer: wishes.anemometer ? drawAnemometer(random) : null,
    converter: {
      voltageStep_V: wishes.converterStep * voltage_V,
      voltageOffset_V: chance(random, 0.3)
        ? wishes.converterStep * voltage_V * between(random, -1, 3)
        : 0,
      voltageRange_V: 4 * voltage_V,
      currentStep_A: wishes.converterStep * currentAt(plant, voltage_V),
      noise_steps: between(random, 0.2, 0.8),
      spikeRate_Hz: wishes.spikeRate_Hz,
      spikeSize: logBetween(random, 0.2, 1),
      dropoutRate_Hz: wishes.dropoutRate_Hz,
      dropoutLongest_s: logBetween(random, 0.1, 0.8),
      dropoutAs: chance(random, 0.5) ? 'zero' : 'missing',
    },
  };
  return { parameters, wind_mps, current: chance(random, 0.75), stamping: drawStamping(random) };
}

function drawStamping(random: Random): Stamping {
  return {
    pace: chance(random, 0.5) ? 1 : between(random, 0.93, 1.05),
    resolution_s: chance(random, 0.5) ? 0.001 : 0,
    jitter: chance(random, 0.3) ? between(random, 0.02, 0.2) : 0,
    linesLost: chance(random, 0.5),
  };
}

function currentAt(plant: PlantParameters, voltage_V: number): number {
  const { load } = plant;
  return load.kind === 'lamp' ? load.ratedCurrent_A : voltage_V / load.resistance_Ohm;
}

function drawRotor(random: Random): Rotor {
  return {
    radius_m: between(random, 0.12, 0.25),
    inertia_kgm2: 1,
    startTorqueCoefficient: logBetween(random, 0.04, 0.13),
    windage_Nms2: 0,
  };
}

function drawJet(wishes: RigWishes, random: Random): Jet {
  const { timeConstant_s, integralTime_s, noise } = wishes;
  // The rotor's inertia passes this share of the gusts on to the voltage.
  const passed = Math.sqrt(integralTime_s / (integralTime_s + timeConstant_s));
  const rotorIntensity = Math.min(0.2, noise / passed);
  return {
    fanLag_s: logBetween(random, 0.3, 1.2),
    droop: wishes.droop,
    droopTime_s: between(random, 12, 30),
    rotorIntensity,
    pointIntensity: Math.min(0.2, Math.max(0.03, rotorIntensity * between(random, 1, 1.8))),
    integralTime_s,
    wander: wishes.wander,
    wanderTime_s: between(random, 1, 3),
  };
}

interface TrainDraw {
  readonly rotor: Rotor;
  readonly wind_mps: number;
  readonly angle_deg: number;
  readonly voltage_V: number;
  readonly ripple: number;
}

/** Rotor, generator and load that meet near the wanted voltage. */
function drawTrain(
  { rotor, wind_mps, angle_deg, voltage_V, ripple }: TrainDraw,
  random: Random,
): Pick<PlantParameters, 'rotor' | 'generator' | 'load'> {
  const line = torqueLine(rotor, angle_deg);
  const startTorque_Nm = 0.5 * 1.2 * Math.PI * rotor.radius_m ** 3 * line.start * wind_mps ** 2;
  const runaway_radps = (line.runaway * wind_mps) / rotor.radius_m;
  const loading = logBetween(random, 0.03, 0.8);
  const speed_radps = (runaway_radps / (1 + loading)) * 0.9;
  const innerShare = between(random, 0.05, 0.4);
  const emfConstant_Vsprad = (voltage_V * (1 + innerShare)) / speed_radps;
  const total_Ohm = (emfConstant_Vsprad ** 2 * runaway_radps) / (loading * startTorque_Nm);
  const load_Ohm = total_Ohm / (1 + innerShare);
  const runningTorque_Nm = startTorque_Nm * between(random, 0.01, 0.04);
  return {
    rotor: {
      ...rotor,
      windage_Nms2: (startTorque_Nm * between(random, 0.02, 0.12)) / speed_radps ** 2,
    },
    generator: {
      emfConstant_Vsprad,
      resistance_Ohm: total_Ohm - load_Ohm,
      runningTorque_Nm,
      staticTorque_Nm: runningTorque_Nm * between(random, 1.2, 2),
      ripple,
      ripplesPerTurn: 2 * Math.floor(between(random, 3, 8)),
    },
    load: chance(random, 0.6)
      ? { kind: 'lamp', ratedVoltage_V: voltage_V, ratedCurrent_A: voltage_V / load_Ohm }
      : { kind: 'resistor', resistance_Ohm: load_Ohm },
  };
}

function drawAnemometer(random: Random): AnemometerParameters {
  const lag_s = logBetween(random, 0.15, 0.8);
  if (chance(random, 0.35)) {
    return { kind: 'analogue', step_mps: logBetween(random, 0.005, 0.05), lag_s };
  }
  return {
    kind: 'pulses',
    windPerPulse_m: logBetween(random, 0.02, 0.3),
    gate_s: between(random, 0.5, 1.5),
    lag_s,
  };
}
