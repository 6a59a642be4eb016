/**
 * The edge between what a person types and what the instrument core computes with: each field's
 * name, unit and limits, and the sentence that says what is wrong with it. SI comes out.
 */
import { z } from 'zod';
import { parseNumber } from '#protocol/number.ts';
import { scaled } from '../metrology/format.ts';

export interface FieldSpec {
  readonly label: string;
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
    label: 'Reference of the converter',
    unit: 'V',
    least: 0.5,
    most: 5.5,
    initial: '5',
    exponent: 0,
  },
  referenceTolerance: { label: 'Tolerance of the reference', ...TOLERANCE, initial: '5' },
  bits: {
    label: 'Bits of the converter',
    unit: 'bits',
    least: 8,
    most: 16,
    initial: '10',
    exponent: 0,
    whole: true,
  },
  partsPerStep: {
    label: 'Counts for one step',
    unit: '',
    least: 1,
    most: 4096,
    initial: '64',
    exponent: 0,
    whole: true,
  },
  upper: { label: 'Upper resistor', ...KILO_OHM, least: 0.01, most: 1000, initial: '20' },
  upperTolerance: { label: 'Tolerance of the upper resistor', ...TOLERANCE, initial: '1' },
  lower: { label: 'Lower resistor', ...KILO_OHM, least: 0.01, most: 1000, initial: '10' },
  lowerTolerance: { label: 'Tolerance of the lower resistor', ...TOLERANCE, initial: '1' },
  largestVoltage: {
    label: 'Largest voltage without the lamp',
    unit: 'V',
    least: 0.1,
    most: 30,
    initial: '12',
    exponent: 0,
  },
  sourceResistance: {
    label: 'Resistance of the generator',
    unit: 'Ω',
    least: 0,
    most: 1000,
    initial: '10',
    exponent: 0,
  },
  shunt: { label: 'Shunt', unit: 'Ω', least: 0.001, most: 100, initial: '0.5', exponent: 0 },
  shuntTolerance: { label: 'Tolerance of the shunt', ...TOLERANCE, initial: '1' },
  amplifierGain: {
    label: 'Gain of the amplifier',
    unit: '×',
    least: 1,
    most: 1000,
    initial: '20',
    exponent: 0,
  },
  amplifierGainTolerance: { label: 'Tolerance of the gain', ...TOLERANCE, initial: '1' },
  amplifierOffset: {
    label: 'Offset of the amplifier',
    ...MILLI_VOLT,
    least: 0,
    most: 20,
    initial: '0.5',
  },
  amplifierMargin: {
    label: 'Its output stops short of its supply by',
    ...MILLI_VOLT,
    least: 0,
    most: 1000,
    initial: '20',
  },
  largestCurrent: {
    label: 'Largest current',
    unit: 'mA',
    least: 1,
    most: 5000,
    initial: '300',
    exponent: -3,
  },
  monitorGainTolerance: { label: 'Tolerance of the monitor', ...TOLERANCE, initial: '0.5' },
  meterRelative: { label: 'Accuracy of the meter, of reading', ...TOLERANCE, initial: '0.5' },
  meterCounts: {
    label: 'Accuracy of the meter, counts',
    unit: 'counts',
    least: 0,
    most: 100,
    initial: '2',
    exponent: 0,
    whole: true,
  },
  monitorShunt: { label: 'Shunt', unit: 'Ω', least: 0.001, most: 100, initial: '0.1', exponent: 0 },
  monitorShuntTolerance: { label: 'Tolerance of the shunt', ...TOLERANCE, initial: '1' },
  presentGain: {
    label: 'Gain in the sketch now',
    unit: '',
    least: 0.1,
    most: 10,
    initial: '1',
    exponent: 0,
  },
  /** In the sketch's unit: mV or mA. */
  presentOffset: {
    label: 'Offset in the sketch now',
    unit: '',
    least: -100_000,
    most: 100_000,
    initial: '0',
    exponent: -3,
  },
} as const satisfies Readonly<Record<string, FieldSpec>>;

export type FieldName = keyof typeof FIELDS;

/** The sentence that names the field and says what is expected; null for a number that fits. */
function problemOf(spec: FieldSpec, text: string): string | null {
  const { label, least, most, initial } = spec;
  const unit = spec.unit === '' ? '' : ` ${spec.unit}`;
  if (text === '') return `${label}: type a number, for instance ${initial}.`;
  if (text.includes(',')) {
    return `${label}: use a decimal point, not a comma: 4.7 rather than 4,7.`;
  }
  const value = parseNumber(text);
  if (value === null) {
    return `${label}: “${text}” is not a number. Type one like ${initial}, without its unit.`;
  }
  if (spec.whole === true && !Number.isInteger(value)) {
    return `${label}: must be a whole number, for instance ${initial}.`;
  }
  if (value < least || value > most) return `${label}: must be from ${least} to ${most}${unit}.`;
  return null;
}

/** A field's text, checked, as a number in SI units. */
export function fieldSchema(name: FieldName): z.ZodType<number, string> {
  const spec: FieldSpec = FIELDS[name];
  return z.string().transform((typed, context) => {
    const text = typed.trim();
    const problem = problemOf(spec, text);
    if (problem === null) return scaled(Number(text), -spec.exponent);
    context.addIssue({ code: 'custom', message: problem });
    return z.NEVER;
  });
}
