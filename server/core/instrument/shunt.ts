/**
 * A current measured as the voltage across a small resistor between the lamp and ground, made
 * larger by an amplifier (or not: a gain of 1).
 *
 *     I = count · V_ref / (2^bits · parts) / (G · R)
 *
 * For instance 0.1 Ω and a gain of 50 at 5 V and 10 bits: up to 1 A in steps of 0.98 mA.
 */
import { z } from 'zod';
import type { WiredChannel } from './channel.ts';
import { ConverterSchema, referenceCause, stepAtPin_V, zeroCause } from './converter.ts';
import { gainUncertainty, ofStep, offsetUncertainty, RelativeLimitSchema } from './tolerance.ts';

export const ShuntSchema = z
  .strictObject({
    resistance_Ohm: z.number().positive(),
    tolerance: RelativeLimitSchema,
    amplifierGain: z.number().positive(),
    amplifierGainTolerance: RelativeLimitSchema,
    /** ±, at the amplifier's input. */
    amplifierOffset_V: z.number().min(0),
    /** How near to ground and to its supply the amplifier's output comes; 0 without amplifier. */
    amplifierMargin_V: z.number().min(0),
    converter: ConverterSchema,
  })
  .readonly();
export type Shunt = z.infer<typeof ShuntSchema>;

/** The amplifier is taken to be fed by the converter's reference or more. */
export function shuntChannel(shunt: Shunt): WiredChannel {
  const { resistance_Ohm, amplifierGain, amplifierMargin_V, converter } = shunt;
  const perPinVolt = 1 / (resistance_Ohm * amplifierGain);
  const pinStep_V = stepAtPin_V(converter);
  const step = pinStep_V * perPinVolt;
  const gain = gainUncertainty([
    referenceCause(converter),
    { name: 'shunt', limit: shunt.tolerance, sensitivity: -1, shared: false },
    {
      name: 'gain of the amplifier',
      limit: shunt.amplifierGainTolerance,
      sensitivity: -1,
      shared: false,
    },
  ]);
  const offsetCauses = [
    zeroCause(step),
    {
      name: 'zero of the amplifier',
      limit: shunt.amplifierOffset_V / resistance_Ohm,
      shared: false,
    },
  ] as const;
  const largest_V = converter.reference_V - Math.max(pinStep_V, amplifierMargin_V);
  return {
    quantity: 'current',
    scale: step / converter.partsPerStep,
    range: largest_V * perPinVolt,
    floor: amplifierMargin_V * perPinVolt,
    step,
    stepUncertainty: ofStep(step),
    gain,
    offsetUncertainty: offsetUncertainty(offsetCauses),
    offsetCauses,
  };
}

/** What a shunt takes from the circuit at one current. */
export interface Burden {
  readonly voltage_V: number;
  readonly power_W: number;
}

export function burden(resistance_Ohm: number, current_A: number): Burden {
  return { voltage_V: current_A * resistance_Ohm, power_W: current_A ** 2 * resistance_Ohm };
}
