/** What an operator decides about an experiment, and can take back. */
import { z } from 'zod';
import { RigFitsSchema } from '../../rotor/fitting/rig-fits.ts';
import { RotorAndAirSchema } from '../../rotor/wind/rotor-and-air.ts';
import { PlanSchema, RunSchema } from '../plan/plan.ts';

export const DecidedSchema = z.object({
  plan: PlanSchema.nullable(),
  /** In the order in which they are to be done. */
  runs: z.array(RunSchema).readonly(),
  /** Ids of runs that are left out. */
  skipped: z.array(z.string()).readonly(),
  /** A run that an operator wants done before the others. */
  wantedId: z.string().nullable(),
  isCovered: z.boolean(),
  predictions: z.record(z.string(), z.number().int().nonnegative()),
  /** Findings about the rig that are meant to be so, by name. */
  accepted: z.array(z.string()).readonly(),
  /** Readings that figures of the rig are fitted to. */
  fits: RigFitsSchema,
  /** As somebody has described them; null: nobody yet. */
  rotorAndAir: RotorAndAirSchema.nullable(),
});
export type Decided = Readonly<z.infer<typeof DecidedSchema>>;

const ASPECTS = Object.keys(DecidedSchema.shape) as (keyof Decided)[];

/** What a decision changes, as it was before. */
export function changedBy(was: Decided, is: Decided): Partial<Decided> {
  const changed = ASPECTS.filter((aspect) => was[aspect] !== is[aspect]);
  return Object.fromEntries(changed.map((aspect) => [aspect, was[aspect]]));
}
