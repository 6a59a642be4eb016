/**
 * A voltage measured through two resistors: from the generator's plus through the upper one to the
 * converter's pin, from there through the lower one to ground.
 *
 *     V = count · V_ref / (2^bits · parts) · (R_1 + R_2) / R_2
 *
 * For instance 1 kΩ over 10 kΩ at 5 V and 10 bits: up to 5.49 V in steps of 5.37 mV.
 */
import { z } from 'zod';
import type { WiredChannel } from './channel.ts';
import { ConverterSchema, referenceCause, stepAtPin_V, zeroCause } from './converter.ts';
import { gainUncertainty, ofStep, offsetUncertainty, RelativeLimitSchema } from './tolerance.ts';

export const DividerSchema = z
  .strictObject({
    upper_Ohm: z.number().positive(),
    upperTolerance: RelativeLimitSchema,
    lower_Ohm: z.number().positive(),
    lowerTolerance: RelativeLimitSchema,
    converter: ConverterSchema,
  })
  .readonly();
export type Divider = z.infer<typeof DividerSchema>;

/** How many times the voltage at the pin the measured voltage is. */
export function dividerRatio({ upper_Ohm, lower_Ohm }: Divider): number {
  return (upper_Ohm + lower_Ohm) / lower_Ohm;
}

export function dividerChannel(divider: Divider): WiredChannel {
  const { upper_Ohm, lower_Ohm, converter } = divider;
  const step = stepAtPin_V(converter) * dividerRatio(divider);
  // d ln(1 + R1/R2) = R1/(R1 + R2) · (d ln R1 − d ln R2)
  const sensitivity = upper_Ohm / (upper_Ohm + lower_Ohm);
  const gain = gainUncertainty([
    referenceCause(converter),
    { name: 'upper resistor', limit: divider.upperTolerance, sensitivity, shared: false },
    {
      name: 'lower resistor',
      limit: divider.lowerTolerance,
      sensitivity: -sensitivity,
      shared: false,
    },
  ]);
  const offsetCauses = [zeroCause(step)];
  return {
    quantity: 'voltage',
    scale: step / converter.partsPerStep,
    range: step * (2 ** converter.bits - 1),
    floor: 0,
    step,
    stepUncertainty: ofStep(step),
    gain,
    offsetUncertainty: offsetUncertainty(offsetCauses),
    offsetCauses,
  };
}

/** What the pin sees as the resistance of its source, Ω: both resistors in parallel. */
export function pinSourceResistance_Ohm({ upper_Ohm, lower_Ohm }: Divider): number {
  return (upper_Ohm * lower_Ohm) / (upper_Ohm + lower_Ohm);
}

/** What the divider does to the circuit it measures. */
export interface DividerLoad {
  /** What it takes from the generator. */
  readonly current_A: number;
  /** By what fraction it lowers the open voltage of a source of that resistance. */
  readonly loweredBy: number;
  readonly upperPower_W: number;
  readonly lowerPower_W: number;
}

export function dividerLoad(
  { upper_Ohm, lower_Ohm }: Divider,
  source: { readonly voltage_V: number; readonly resistance_Ohm: number },
): DividerLoad {
  const total_Ohm = upper_Ohm + lower_Ohm;
  const current_A = source.voltage_V / total_Ohm;
  return {
    current_A,
    loweredBy: source.resistance_Ohm / (source.resistance_Ohm + total_Ohm),
    upperPower_W: current_A ** 2 * upper_Ohm,
    lowerPower_W: current_A ** 2 * lower_Ohm,
  };
}

/** What a small silicon diode drops at a milliampere, V (data sheets of signal diodes). */
const CLAMP_DROP_V = 0.7;

/**
 * What the clamping diodes at the pin must carry, A: the larger of the currents with the generator
 * reversed, and with `voltage_V` the right way round. Only the upper resistor limits it.
 */
export function clampCurrent_A(
  { upper_Ohm, lower_Ohm, converter }: Divider,
  voltage_V: number,
): number {
  const reversed_A = (voltage_V - CLAMP_DROP_V) / upper_Ohm - CLAMP_DROP_V / lower_Ohm;
  const held_V = converter.reference_V + CLAMP_DROP_V;
  const over_A = (voltage_V - held_V) / upper_Ohm - held_V / lower_Ohm;
  return Math.max(reversed_A, over_A, 0);
}
