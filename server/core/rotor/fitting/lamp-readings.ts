/** What somebody has read at the lamp, and what can be concluded of it. */
import { z } from 'zod';
import { fitLamp, type LampFit } from './fit-lamp.ts';
import { asNormal } from './fitted.ts';
import { LoadStepSchema, MOST_STEPS } from './generator-readings.ts';

export const LampReadingsSchema = z
  .strictObject({ steps: z.array(LoadStepSchema).min(1).max(MOST_STEPS).readonly() })
  .readonly();
export type LampReadings = z.infer<typeof LampReadingsSchema>;

export const LAMP_GAPS = [
  'two voltages',
  'one more',
  /** The highest is less than twice the lowest. */
  'wider apart',
  /** Current rises faster than voltage, or hardly at all: a diode lamp, or slips in typing. */
  'no filament',
] as const;
export type LampGap = (typeof LAMP_GAPS)[number];

export interface LampConclusion {
  /** Null where nothing can be used. */
  readonly fit: LampFit | null;
  /** It is a plain resistor, as far as can be told. */
  readonly isResistor: boolean;
  /** Current read over fitted, less 1; of each step, null for one that was left out. */
  readonly residuals: readonly (number | null)[];
  readonly gaps: readonly LampGap[];
}

/** A power of the voltage that a filament may have; 1 is a resistor. */
const EXPONENTS = { low: 0.1, high: 1 } as const;
/** So near to 1 it makes no difference. */
const NEAR_RESISTOR = 0.05;
const NARROW = 2;

export function concludeLamp({ steps }: LampReadings): LampConclusion {
  const fit = fitLamp(steps);
  if (fit === null) return { ...NOTHING, gaps: ['two voltages'] };
  const { value } = fit.currentExponent;
  const reach = 2 * (asNormal(fit.currentExponent) ?? 0) + NEAR_RESISTOR;
  if (value - reach > EXPONENTS.high || value + reach < EXPONENTS.low) {
    return { ...NOTHING, gaps: ['no filament'] };
  }
  const isSpare = fit.currentExponent.standardUncertainty !== null;
  const isNarrow = fit.load.ratedVoltage_V < NARROW * fit.lowest_V;
  return {
    fit,
    isResistor: Math.abs(value - 1) < NEAR_RESISTOR,
    residuals: steps.map(({ voltage_V, current_A }) => {
      const isUsed = voltage_V >= fit.lowest_V && current_A > 0;
      return isUsed ? current_A / fit.currentAt_A(voltage_V) - 1 : null;
    }),
    gaps: [
      ...(isSpare ? [] : (['one more'] as const)),
      ...(isNarrow ? (['wider apart'] as const) : []),
    ],
  };
}

const NOTHING: LampConclusion = { fit: null, isResistor: false, residuals: [], gaps: [] };
