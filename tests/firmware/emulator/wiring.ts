/**
 * How the emulated rig is wired to the boards: the parts that the sketches' settings name, and how
 * far from their printed values these may be.
 */
import type { Stimulus } from './board.ts';

/** What the sketches are set for (the settings block of each .ino). */
export const NOMINAL = {
  /** (R1 + R2) / R2 of the divider at A0. */
  divider: 3,
  /** Ω times the amplifier's gain, at A1. */
  shunt_Ohm: 0.5,
  amplifierGain: 20,
  reference_V: 5,
  windPerPulse_m: 0.4,
  pulsesPerTurn: 2,
  /** The monitor's shunt. */
  monitorShunt_Ohm: 0.1,
} as const;

/** One of the converter's 1024 steps. */
const STEP_V = NOMINAL.reference_V / 1024;

/** Relative deviations of the parts that were really built in. */
export interface Deviations {
  readonly divider: number;
  readonly shunt: number;
  readonly amplifier: number;
  readonly reference: number;
}
export const NO_DEVIATIONS: Deviations = { divider: 0, shunt: 0, amplifier: 0, reference: 0 };

/**
 * How far a plateau's mean may be off beside its own (Type A) uncertainty, with parts exactly as
 * printed; half-widths. Conversions that noise spreads over 0.6 steps average to within far less
 * than a tenth of a step (a uniform quantiser's error falls as exp(−2π²σ²): Widrow and Kollár,
 * Quantization Noise, 2008; from memory). The monitor has no such noise: half a step of its own.
 */
export const CONVERTER_BUDGET = {
  'adc-board': {
    voltage_V: 0.1 * STEP_V * NOMINAL.divider,
    current_A: (0.1 * STEP_V) / (NOMINAL.shunt_Ohm * NOMINAL.amplifierGain),
  },
  'monitor-board': { voltage_V: 0.5 * 0.004, current_A: (0.5 * 10e-6) / NOMINAL.monitorShunt_Ohm },
} as const;

/** What the rig's terminals and pick-ups have at one moment. */
export interface Moment {
  readonly voltage_V: number;
  readonly current_A: number;
  readonly windSpeed_mps: number;
  readonly rotorSpeed_radps: number;
}

/** The converter's noise that spreads conversions over more than a step (4.9 mV), as real ones do. */
export const CONVERTER_NOISE_MV = 3;

/** The board's parts, before the rig is played. */
export function wire(deviations: Deviations): string[] {
  return [
    `noise ${CONVERTER_NOISE_MV}`,
    `reference ${1000 * NOMINAL.reference_V * (1 + deviations.reference)}`,
    'monitor present',
  ];
}

/** A moment as what the pins see: the converter's, the pulse inputs', the monitor's. */
export function pinsOf(at_s: number, moment: Moment, deviations: Deviations): Stimulus[] {
  const { voltage_V, current_A, windSpeed_mps, rotorSpeed_radps } = moment;
  const divider_V = voltage_V / (NOMINAL.divider * (1 + deviations.divider));
  const shunt_V = current_A * NOMINAL.shunt_Ohm * (1 + deviations.shunt);
  const amplified_V = shunt_V * NOMINAL.amplifierGain * (1 + deviations.amplifier);
  const turns_Hz = rotorSpeed_radps / (2 * Math.PI);
  return [
    `adc 0 ${(1000 * divider_V).toFixed(4)}`,
    `adc 1 ${(1000 * amplified_V).toFixed(4)}`,
    `pulses 2 ${(windSpeed_mps / NOMINAL.windPerPulse_m).toFixed(4)}`,
    `pulses 3 ${(turns_Hz * NOMINAL.pulsesPerTurn).toFixed(4)}`,
    `monitor bus ${(1000 * voltage_V).toFixed(4)}`,
    `monitor shunt ${(1000 * current_A * NOMINAL.monitorShunt_Ohm).toFixed(5)}`,
  ].map((what) => ({ at_s, what }));
}

/**
 * What the board makes of a true voltage and current with such parts, relative to the truth: the
 * sketch believes in the printed values. Its gain uncertainty has to cover this.
 */
export function expectedError(deviations: Deviations): { voltage: number; current: number } {
  const reference = 1 + deviations.reference;
  return {
    voltage: 1 / ((1 + deviations.divider) * reference) - 1,
    current: ((1 + deviations.shunt) * (1 + deviations.amplifier)) / reference - 1,
  };
}
