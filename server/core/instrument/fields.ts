/**
 * The edge between what a person types and what the instrument core computes with: each field's
 * unit and limits, and what is wrong with it. SI comes out.
 */
import { z } from 'zod';
import { parseNumber } from '#protocol/number.ts';
import { scaled } from '../metrology/format.ts';

export interface FieldSpec {
  readonly unit: string;
  /** Limits in the field's unit, both included. */
  readonly least: number;
  readonly most: number;
  /** What the form begins with, and what a message gives as an instance. */
  readonly initial: string;
  /** SI value = typed value · 10^exponent. */
  readonly exponent: number;
  readonly whole?: true;
}

const KILO_OHM = { unit: 'kΩ', exponent: 3 };
const MILLI_VOLT = { unit: 'mV', exponent: -3 };
const TOLERANCE = { unit: '%', least: 0, most: 20, exponent: -2 };

export const FIELDS = {
  reference: {
    unit: 'V',
    least: 0.5,
    most: 5.5,
    initial: '5',
    exponent: 0,
  },
  referenceTolerance: { ...TOLERANCE, initial: '5' },
  bits: {
    unit: 'bits',
    least: 8,
    most: 16,
    initial: '10',
    exponent: 0,
    whole: true,
  },
  partsPerStep: {
    unit: '',
    least: 1,
    most: 4096,
    initial: '64',
    exponent: 0,
    whole: true,
  },
  upper: { ...KILO_OHM, least: 0.01, most: 1000, initial: '20' },
  upperTolerance: { ...TOLERANCE, initial: '1' },
  lower: { ...KILO_OHM, least: 0.01, most: 1000, initial: '10' },
  lowerTolerance: { ...TOLERANCE, initial: '1' },
  largestVoltage: {
    unit: 'V',
    least: 0.1,
    most: 30,
    initial: '12',
    exponent: 0,
  },
  sourceResistance: {
    unit: 'Ω',
    least: 0,
    most: 1000,
    initial: '10',
    exponent: 0,
  },
  shunt: { unit: 'Ω', least: 0.001, most: 100, initial: '0.5', exponent: 0 },
  shuntTolerance: { ...TOLERANCE, initial: '1' },
  amplifierGain: {
    unit: '×',
    least: 1,
    most: 1000,
    initial: '20',
    exponent: 0,
  },
  amplifierGainTolerance: { ...TOLERANCE, initial: '1' },
  amplifierOffset: {
    ...MILLI_VOLT,
    least: 0,
    most: 20,
    initial: '0.5',
  },
  amplifierMargin: {
    ...MILLI_VOLT,
    least: 0,
    most: 1000,
    initial: '20',
  },
  largestCurrent: {
    unit: 'mA',
    least: 1,
    most: 5000,
    initial: '300',
    exponent: -3,
  },
  monitorGainTolerance: { ...TOLERANCE, initial: '0.5' },
  meterRelative: { ...TOLERANCE, initial: '0.5' },
  meterCounts: {
    unit: 'counts',
    least: 0,
    most: 100,
    initial: '2',
    exponent: 0,
    whole: true,
  },
  monitorShunt: { unit: 'Ω', least: 0.001, most: 100, initial: '0.1', exponent: 0 },
  monitorShuntTolerance: { ...TOLERANCE, initial: '1' },
  presentGain: {
    unit: '',
    least: 0.1,
    most: 10,
    initial: '1',
    exponent: 0,
  },
  /** In the sketch's unit: mV or mA. */
  presentOffset: {
    unit: '',
    least: -100_000,
    most: 100_000,
    initial: '0',
    exponent: -3,
  },
} as const satisfies Readonly<Record<string, FieldSpec>>;

export type FieldName = keyof typeof FIELDS;

export type FieldFault = 'empty' | 'comma' | 'no-number' | 'not-whole' | 'out-of-limits';

/** What is wrong with a field's text; null for a number that fits. */
export function fieldFault(name: FieldName, typed: string): FieldFault | null {
  const spec: FieldSpec = FIELDS[name];
  const text = typed.trim();
  if (text === '') return 'empty';
  if (text.includes(',')) return 'comma';
  const value = parseNumber(text);
  if (value === null) return 'no-number';
  if (spec.whole === true && !Number.isInteger(value)) return 'not-whole';
  return value < spec.least || value > spec.most ? 'out-of-limits' : null;
}

/** A field's text, checked, as a number in SI units; an issue's message is the fault. */
export function fieldSchema(name: FieldName): z.ZodType<number, string> {
  return z.string().transform((typed, context) => {
    const fault = fieldFault(name, typed);
    if (fault === null) return scaled(Number(typed.trim()), -FIELDS[name].exponent);
    context.addIssue({ code: 'custom', message: fault });
    return z.NEVER;
  });
}
