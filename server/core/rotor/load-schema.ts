/** A load as it comes from outside: a rig's file, or what was said of a session's rig. */
import { z } from 'zod';
import { fieldNumber } from './rig-fields.ts';

export const LoadSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('resistor'), resistance_Ohm: fieldNumber('load.resistance_Ohm') }),
  z.strictObject({
    kind: z.literal('lamp'),
    ratedVoltage_V: fieldNumber('load.ratedVoltage_V'),
    ratedCurrent_A: fieldNumber('load.ratedCurrent_A'),
    resistanceExponent: fieldNumber('load.resistanceExponent').optional(),
  }),
]);
