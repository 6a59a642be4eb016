/**
 * Which trial is meant: a recording and a stream time inside the trial's interval. Not its number,
 * so that what was done still attaches by overlap when a later version of the detector derives
 * other trials.
 */
import { z } from 'zod';

export const AddressSchema = z.strictObject({
  recordingId: z.number().int().positive(),
  time_s: z.number(),
  /** A trial that was keyed in or imported is meant, not what a board measured at that time. */
  isByHand: z.boolean().optional(),
});
export type Address = z.infer<typeof AddressSchema>;
