/** Every number of a rig's file: what it is, and how much of it a bench can have. */
import { z } from 'zod';
import { AIR_LIMITS } from './wind/air.ts';

export interface Field {
  readonly what: string;
  readonly low: number;
  readonly high: number;
  readonly whole?: boolean;
}

export const FIELDS = {
  'air.temperature_degC': { what: 'degrees Celsius', ...AIR_LIMITS.temperature_degC },
  'air.pressure_Pa': { what: 'pascals (1013 hPa are 101300)', ...AIR_LIMITS.pressure_Pa },
  'air.altitude_m': { what: 'metres above the sea', ...AIR_LIMITS.altitude_m },
  'air.relativeHumidity': { what: 'a fraction (50 % is 0.5)', ...AIR_LIMITS.relativeHumidity },
  windSpeed_mps: { what: 'metres per second', low: 0.1, high: 40 },
  'rotor.radius_m': { what: 'metres', low: 0.01, high: 3 },
  'rotor.hubRadius_m': { what: 'metres', low: 0, high: 3 },
  'rotor.chord_m': { what: 'metres', low: 0.001, high: 1 },
  'rotor.blades': { what: 'a whole number', low: 1, high: 24, whole: true },
  'rotor.camber': { what: 'height of the arc over the chord', low: 0, high: 0.15 },
  'rotor.jetRadius_m': { what: 'metres', low: 0.01, high: 10 },
  'angles_deg[]': { what: 'degrees from the rotor plane', low: 0, high: 90 },
  'generator.k_Vsprad': { what: 'volt seconds per radian', low: 1e-4, high: 10 },
  'generator.resistance_Ohm': { what: 'ohms', low: 0.01, high: 1e5 },
  'generator.staticTorque_Nm': { what: 'newton metres', low: 0, high: 10 },
  'generator.runningTorque_Nm': { what: 'newton metres', low: 0, high: 10 },
  'load.resistance_Ohm': { what: 'ohms', low: 0.01, high: 1e6 },
  'load.ratedVoltage_V': { what: 'volts', low: 0.1, high: 60 },
  'load.ratedCurrent_A': { what: 'amperes', low: 0.001, high: 20 },
  'load.resistanceExponent': { what: 'a power of the voltage', low: 0, high: 0.9 },
  'vary.length_m[]': { what: 'metres', low: 0.01, high: 3 },
  'vary.blades[]': { what: 'a whole number', low: 1, high: 24, whole: true },
  'vary.loadResistance_Ohm[]': { what: 'ohms', low: 0.01, high: 1e6 },
  'uncertainty.windSpeed': { what: 'a share of it', low: 0, high: 0.5 },
  'uncertainty.angle_deg': { what: 'degrees', low: 0, high: 20 },
  'uncertainty.emfConstant': { what: 'a share of it', low: 0, high: 0.5 },
  'uncertainty.windingResistance': { what: 'a share of it', low: 0, high: 0.5 },
  'uncertainty.friction': { what: 'a share of it', low: 0, high: 1 },
  'uncertainty.load': { what: 'a share of it', low: 0, high: 0.5 },
  'uncertainty.chord': { what: 'a share of it', low: 0, high: 0.5 },
} as const satisfies Record<string, Field>;

/** One of them as a schema. */
export function fieldNumber(name: keyof typeof FIELDS): z.ZodNumber {
  const field: Field = FIELDS[name];
  const within = z.number().min(field.low).max(field.high);
  return field.whole ? within.int() : within;
}

/** Angles, or levels of what is varied. */
export const MOST_LEVELS = 91;
