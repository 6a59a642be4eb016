/** A row of an uncertainty budget: one cause, and what it adds to the result. */
import { z } from 'zod';
import { ERROR_CAUSES } from '../../instrument/causes.ts';

export const BUDGET_CAUSES = [
  /** Type A: what the readings themselves scatter. */
  'scatter of the readings',
  /** Keyed readings of meters that are not described: scatter and accuracy as one. */
  'readings and meters',
  /** What voltage and current are off, multiplied: matters near nothing only. */
  'both at once',
  ...ERROR_CAUSES,
] as const;
export type BudgetCause = (typeof BUDGET_CAUSES)[number];

export const BudgetRowSchema = z.object({
  cause: z.enum(BUDGET_CAUSES),
  channel: z.enum(['voltage', 'current', 'both', 'power']),
  /** Of value and standard uncertainty; `step`: of the converter, `limit`: what was stated. */
  unit: z.enum(['W', 'ratio', 'V', 'A', 'step', 'limit']),
  value: z.number(),
  standardUncertainty: z.number(),
  distribution: z.enum(['rectangular', 'normal', 'student']),
  /** 1e6 stands for endless. */
  degreesOfFreedom: z.number(),
  /** Change of power in W for a change of one unit. */
  sensitivity: z.number(),
  /** |sensitivity| · standard uncertainty. */
  contribution_W: z.number(),
  /** Of the variance. */
  share: z.number(),
  /** Trials whose rows have the same name here are off by the same amount; null: this one alone. */
  commonAs: z.string().nullable(),
});
export type BudgetRow = Readonly<z.infer<typeof BudgetRowSchema>>;

/** A row in the making: its share is known once all rows are. */
export type RowDraft = z.infer<typeof BudgetRowSchema>;

export function draftRow(row: Omit<RowDraft, 'share' | 'contribution_W'>): RowDraft {
  const { cause, channel, unit, value, standardUncertainty, distribution } = row;
  const { degreesOfFreedom, sensitivity, commonAs } = row;
  // Written out: it is done for each cause of each trial, and `...row` takes ten times as long.
  return {
    cause,
    channel,
    unit,
    value,
    standardUncertainty,
    distribution,
    degreesOfFreedom,
    sensitivity,
    contribution_W: Math.abs(sensitivity) * standardUncertainty,
    share: 0,
    commonAs,
  };
}
