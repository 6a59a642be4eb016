/** A closed plateau as it is stored. */
import { z } from 'zod';
import type { ClosedPlateau } from '#core/events.ts';
import { QUANTITIES } from '#core/signal/sample.ts';

const EstimateSchema = z.object({
  mean: z.number(),
  standardUncertainty: z.number(),
  degreesOfFreedom: z.number(),
  effectiveSampleSize: z.number(),
});

export const ClosedPlateauSchema = z.object({
  start_s: z.number(),
  end_s: z.number(),
  declared_s: z.number(),
  sampleCount: z.number().int(),
  rotorStill: z.boolean(),
  estimates: z.partialRecord(z.enum(QUANTITIES), EstimateSchema),
  endReason: z.enum(['changed', 'interrupted', 'end']),
  trialId: z.number().int().nullable(),
}) satisfies z.ZodType<ClosedPlateau>;
