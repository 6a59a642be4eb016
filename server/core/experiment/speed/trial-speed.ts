/** How fast the rotor turned in a trial, as it is told. */
import { z } from 'zod';
import { MeasuredValueSchema } from '../../metrology/measured-value.ts';

/** A channel of the board; the ripple of its voltage; its voltage by the generator's constant. */
export const SPEED_SOURCES = ['channel', 'ripple', 'generator'] as const;

export const TrialSpeedSchema = z.object({
  rotorSpeed_radps: MeasuredValueSchema,
  by: z.enum(SPEED_SOURCES),
  /** Of the blades' tips over the wind; null without radius or wind. */
  tipSpeedRatio: MeasuredValueSchema.nullable(),
});
export type TrialSpeed = Readonly<z.infer<typeof TrialSpeedSchema>>;
