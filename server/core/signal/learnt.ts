/** What the detector has learnt of a rig: part of the pipeline's state, JSON-safe, snapshotted. */
import { z } from 'zod';
import { QUANTITIES } from './sample.ts';

/** Belief in the noise of one quantity, in units of its level: see settling/noise-memory.ts. */
export const LearntNoiseSchema = z.object({
  logLevel: z.number(),
  logTime: z.number(),
  logShare: z.number(),
  precision: z.number().positive(),
  /** Earlier versions did not learn it: as of a rig of which nothing is known. */
  logOwn: z.number().default(0),
});
export type LearntNoise = z.infer<typeof LearntNoiseSchema>;

export const LearntQuantitySchema = z
  .object({
    /** Smallest step between readings; null until two different ones were seen. */
    resolution: z.number().positive().nullable(),
    /** Largest block mean seen, as a measure of what "turning" means on this rig. */
    peak: z.number().nonnegative(),
    noise: LearntNoiseSchema,
    /** The same as means over whole plateaus meet it. Version 1 had none: it began with the other. */
    meanNoise: LearntNoiseSchema.optional(),
  })
  .transform((quantity) => ({ ...quantity, meanNoise: quantity.meanNoise ?? quantity.noise }));

export const LearntSchema = z.object({
  version: z.literal([1, 2]).transform(() => 2 as const),
  /** ln of the rotor's lag in s, and how many approaches that stands for. */
  lag: z.object({ logLag: z.number(), weight: z.number().nonnegative() }),
  quantities: z.partialRecord(z.enum(QUANTITIES), LearntQuantitySchema),
});
export type Learnt = z.infer<typeof LearntSchema>;
