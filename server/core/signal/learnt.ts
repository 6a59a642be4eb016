/** What the detector has learnt of a rig's noise: part of the pipeline's state, JSON-safe. */
import { z } from 'zod';

/** A first, deliberately small shape; it grows with the detector and carries its own version. */
export const LearntSchema = z.object({
  version: z.literal(1),
});
export type Learnt = z.infer<typeof LearntSchema>;
