/** What the detector has learnt of a rig's noise: part of the pipeline's state, JSON-safe. */
import { z } from 'zod';
import { CHANNELS } from './sample.ts';

/** What is known of one channel. */
export const LearntChannelSchema = z.object({
  /** Smallest step between readings; null until two different ones were seen. */
  resolution: z.number().positive().nullable(),
  /** Largest block mean seen, as a measure of what "turning" means on this rig. */
  peak: z.number().nonnegative(),
  /** Mean of ln(long-run variance / level², s) over quiet plateaus, and how many it stands for. */
  logNoise: z.number(),
  noiseWeight: z.number().nonnegative(),
});
export type LearntChannel = z.infer<typeof LearntChannelSchema>;

export const LearntSchema = z.object({
  version: z.literal(1),
  channels: z.partialRecord(z.enum(CHANNELS), LearntChannelSchema),
});
export type Learnt = z.infer<typeof LearntSchema>;
