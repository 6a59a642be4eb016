import { z } from 'zod';

export const MeasuredValueSchema = z.object({
  value: z.number(),
  /** null: not known (what a table from elsewhere does not tell); never 0 for that. */
  standardUncertainty: z.number().nullable(),
  degreesOfFreedom: z.number(),
});
export type MeasuredValue = z.infer<typeof MeasuredValueSchema>;
