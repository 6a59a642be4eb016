/** What is typed into the forms of the wiring page, field by field, as designs in SI units. */
import { z } from 'zod';
import { scaled } from '../metrology/format.ts';
import type { WiredQuantity } from './channel.ts';
import type { Converter } from './converter.ts';
import type { Divider } from './divider.ts';
import { fieldSchema } from './fields.ts';
import type { Comparison, Indication } from './meter-comparison.ts';
import { MONITOR_RANGES, type Monitor, type MonitorRange_mV } from './monitor.ts';
import type { Shunt } from './shunt.ts';

const CONVERTER = {
  reference: fieldSchema('reference'),
  referenceTolerance: fieldSchema('referenceTolerance'),
  bits: fieldSchema('bits'),
  partsPerStep: fieldSchema('partsPerStep'),
};

function toConverter(read: {
  reference: number;
  referenceTolerance: number;
  bits: number;
  partsPerStep: number;
}): Converter {
  return {
    reference_V: read.reference,
    referenceTolerance: read.referenceTolerance,
    bits: read.bits,
    partsPerStep: read.partsPerStep,
  };
}

export interface DividerDesign {
  readonly divider: Divider;
  readonly largest_V: number;
  readonly sourceResistance_Ohm: number;
}

export const DividerDesignSchema = z
  .object({
    ...CONVERTER,
    upper: fieldSchema('upper'),
    upperTolerance: fieldSchema('upperTolerance'),
    lower: fieldSchema('lower'),
    lowerTolerance: fieldSchema('lowerTolerance'),
    largestVoltage: fieldSchema('largestVoltage'),
    sourceResistance: fieldSchema('sourceResistance'),
  })
  .transform(
    (read): DividerDesign => ({
      divider: {
        upper_Ohm: read.upper,
        upperTolerance: read.upperTolerance,
        lower_Ohm: read.lower,
        lowerTolerance: read.lowerTolerance,
        converter: toConverter(read),
      },
      largest_V: read.largestVoltage,
      sourceResistance_Ohm: read.sourceResistance,
    }),
  );

export interface ShuntDesign {
  readonly shunt: Shunt;
  readonly largest_A: number;
}

export const ShuntDesignSchema = z
  .object({
    ...CONVERTER,
    shunt: fieldSchema('shunt'),
    shuntTolerance: fieldSchema('shuntTolerance'),
    amplifierGain: fieldSchema('amplifierGain'),
    amplifierGainTolerance: fieldSchema('amplifierGainTolerance'),
    amplifierOffset: fieldSchema('amplifierOffset'),
    amplifierMargin: fieldSchema('amplifierMargin'),
    largestCurrent: fieldSchema('largestCurrent'),
  })
  .transform(
    (read): ShuntDesign => ({
      shunt: {
        resistance_Ohm: read.shunt,
        tolerance: read.shuntTolerance,
        amplifierGain: read.amplifierGain,
        amplifierGainTolerance: read.amplifierGainTolerance,
        amplifierOffset_V: read.amplifierOffset,
        amplifierMargin_V: read.amplifierMargin,
        converter: toConverter(read),
      },
      largest_A: read.largestCurrent,
    }),
  );

export interface MonitorDesign {
  readonly monitor: Monitor;
  readonly largest_A: number;
}

const RANGE_TEXTS = Object.keys(MONITOR_RANGES);

export const MonitorDesignSchema = z
  .object({
    monitorShunt: fieldSchema('monitorShunt'),
    monitorShuntTolerance: fieldSchema('monitorShuntTolerance'),
    monitorGainTolerance: fieldSchema('monitorGainTolerance'),
    monitorRange: z
      .string()
      .refine((text) => RANGE_TEXTS.includes(text)),
    largestCurrent: fieldSchema('largestCurrent'),
  })
  .transform(
    (read): MonitorDesign => ({
      monitor: {
        shunt_Ohm: read.monitorShunt,
        shuntTolerance: read.monitorShuntTolerance,
        range_mV: Number(read.monitorRange) as MonitorRange_mV,
        gainTolerance: read.monitorGainTolerance,
      },
      largest_A: read.largestCurrent,
    }),
  );

/** A reading as it stands on a display; its last digit is what it was read to. */
const INDICATION = /^[+-]?\d{1,9}(?:\.\d{1,9})?$/;

export type ReadingFault = 'comma' | 'no-number';

/** What is wrong with a reading's text; null for a number as a display shows it. */
export function readingFault(typed: string): ReadingFault | null {
  if (INDICATION.test(withMinus(typed))) return null;
  return typed.includes(',') ? 'comma' : 'no-number';
}

function withMinus(typed: string): string {
  return typed.trim().replace('−', '-');
}

const IndicationSchema = z.string().transform((typed, context): Indication => {
  const fault = readingFault(typed);
  if (fault !== null) {
    context.addIssue({ code: 'custom', message: fault });
    return z.NEVER;
  }
  const text = withMinus(typed);
  const decimals = text.split('.')[1]?.length ?? 0;
  return { value: Number(text), resolution: Number(`1e-${decimals}`) };
});

/** What is typed into the rows: volts for a voltage, milliamperes for a current. */
export const READING_EXPONENT = { voltage: 0, current: -3 } as const;

function toSi({ value, resolution }: Indication, quantity: WiredQuantity): Indication {
  const exponent = READING_EXPONENT[quantity];
  return { value: scaled(value, -exponent), resolution: scaled(resolution, -exponent) };
}

/** A line goes through two; more check themselves. */
export const FEWEST_POINTS = 2;
/** Most pairs of readings in one comparison. */
export const MOST_POINTS = 12;

export const ComparisonSchema = z
  .object({
    quantity: z.enum(['voltage', 'current']),
    meterRelative: fieldSchema('meterRelative'),
    meterCounts: fieldSchema('meterCounts'),
    presentGain: fieldSchema('presentGain'),
    presentOffset: fieldSchema('presentOffset'),
    points: z
      .array(z.object({ meter: IndicationSchema, page: IndicationSchema }))
      .min(FEWEST_POINTS)
      .max(MOST_POINTS),
  })
  .transform(
    (read): Comparison => ({
      accuracy: { relative: read.meterRelative, counts: read.meterCounts },
      present: { gain: read.presentGain, offset: read.presentOffset },
      points: read.points.map(({ meter, page }) => ({
        meter: toSi(meter, read.quantity),
        page: toSi(page, read.quantity),
      })),
    }),
  );
