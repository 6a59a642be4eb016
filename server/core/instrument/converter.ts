/**
 * An analogue-to-digital converter as it stands in an 8-bit board. One end of its scale is ground,
 * the other its reference voltage; a conversion gives the code floor(2^bits · V / V_ref) or the
 * nearest, at most 2^bits − 1. The board averages many and sends the mean in parts of a step, so
 * that a count is finer than a step.
 */
import { z } from 'zod';
import { RelativeLimitSchema, type GainCause, type OffsetCause } from './tolerance.ts';

export const ConverterSchema = z
  .strictObject({
    reference_V: z.number().positive(),
    referenceTolerance: RelativeLimitSchema,
    bits: z.number().int().min(1).max(32),
    /** Into how many counts the board divides one step. */
    partsPerStep: z.number().int().positive(),
  })
  .readonly();
export type Converter = z.infer<typeof ConverterSchema>;

/**
 * Limits of the converter's own zero, in steps. Data sheet of the 8-bit microcontrollers that most
 * boards carry (ATmega48 to 328, ADC characteristics, clock 200 kHz): offset error 2 steps,
 * absolute accuracy 2 steps, both typical.
 */
export const ZERO_LIMIT_STEPS = 2;

/**
 * The source resistance that such a converter's input is made for, Ω (the same data sheet, analog
 * input circuitry: "approximately 10 kΩ or less"). The sampling capacitor must be charged through
 * it within one and a half clocks.
 */
export const SOURCE_LIMIT_OHM = 10_000;

/** One step at the converter's pin, V. */
export function stepAtPin_V({ reference_V, bits }: Converter): number {
  return reference_V / 2 ** bits;
}

/**
 * The converter's part in the gain. The reference serves all of the board's analogue inputs: it is
 * wrong for voltage and current alike.
 */
export function referenceCause({ referenceTolerance }: Converter): GainCause {
  return {
    name: 'reference of the converter',
    limit: referenceTolerance,
    sensitivity: 1,
    shared: true,
  };
}

export function zeroCause(step: number): OffsetCause {
  return { name: 'zero of the converter', limit: ZERO_LIMIT_STEPS * step, shared: true };
}
