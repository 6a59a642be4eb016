/**
 * The uncertainty budget of a trial's power: every cause, what it adds, and whether all trials have
 * it in common.
 *
 * With V and I read at the same moments, each true value is reading·(1 + gain) + offset, so
 *     P = V̄Ī·(1 + g_V)(1 + g_I) + o_I·V(1 + g_V) + o_V·I(1 + g_I) + o_V·o_I,
 * where V̄Ī is the mean of the products: what voltage and current do together is in it and in its
 * Type A uncertainty (JCGM 100:2008 (GUM), H.2.4, the second approach). The causes do not depend on
 * each other: their squares add up (5.1.2), and the last term is the one of second order (5.1.2,
 * note), which is all there is where nothing turns.
 */
import { z } from 'zod';
import { UNKNOWN_INSTRUMENT, type Instrument } from '../../instrument/instrument.ts';
import { combine } from '../../metrology/combine.ts';
import { coverageFactor } from '../../metrology/coverage.ts';
import { BudgetRowSchema, type RowDraft } from './row.ts';
import { boardRows, correctionRows, keyedRows, meansOf, restRow, type BudgetedTrial } from './rows.ts';
import { BUDGET_GAPS, causesOfTrial } from './trial-causes.ts';

export const BudgetSchema = z.object({
  trialId: z.number().int().positive(),
  value_W: z.number(),
  standardUncertainty_W: z.number(),
  /** Of the trial alone, what another trial would show anew: standard and expanded uncertainty. */
  random_W: z.number(),
  expandedRandom_W: z.number(),
  /** In common with all trials that were measured with the same instruments. */
  common_W: z.number(),
  expandedCommon_W: z.number(),
  degreesOfFreedom: z.number(),
  /** For 95 %. */
  coverageFactor: z.number(),
  expandedUncertainty_W: z.number(),
  /** Of what nothing is known: the uncertainty is at least this. */
  gaps: z.array(z.enum(BUDGET_GAPS)).readonly(),
  /** The largest first. */
  rows: z.array(BudgetRowSchema).readonly(),
});
export type Budget = Readonly<z.infer<typeof BudgetSchema>>;

/** What a trial was measured with. */
export interface Rig {
  /** Trials have causes in common only with trials of the same id. */
  readonly id: string;
  readonly instrument: Instrument;
}

/** Null for a trial without power, or of whose scatter nothing is known. */
export function budgetOf(trial: BudgetedTrial, { id, instrument }: Rig): Budget | null {
  const { power_W } = trial;
  if (power_W === null || power_W.standardUncertainty === null) return null;
  const isKeyed = trial.basis === 'keyed';
  const isDescribed = !isKeyed || isByMeters(instrument);
  const { causes, corrections, gaps } = causesOfTrial(
    trial,
    isDescribed ? instrument : UNKNOWN_INSTRUMENT,
  );
  const means = meansOf(trial);
  const holdsAll = { trialId: trial.id, gaps: isKeyed ? gaps.filter((gap) => gap === 'correction') : gaps };
  if (trial.rotorStill) {
    const off = isKeyed ? corrections : [...causes, ...corrections];
    return summed({ ...holdsAll, value_W: 0 }, [restRow(means, off)]);
  }
  const rows = isKeyed
    ? [...keyedRows(means, causes, id), ...correctionRows(means, corrections)]
    : boardRows(means, [...causes, ...corrections], id);
  return summed({ ...holdsAll, value_W: power_W.value }, rows);
}

function isByMeters({ voltage, current }: Instrument): boolean {
  return voltage?.kind === 'meter' && current?.kind === 'meter';
}

function summed(
  about: Pick<Budget, 'trialId' | 'value_W' | 'gaps'>,
  drafts: readonly RowDraft[],
): Budget {
  const rows = drafts.filter(({ contribution_W }) => contribution_W > 0);
  const whole = together(rows);
  for (const row of rows) row.share = (row.contribution_W / whole.u) ** 2;
  rows.sort((a, b) => b.contribution_W - a.contribution_W);
  const random = together(rows.filter(({ commonAs }) => commonAs === null));
  const common = together(rows.filter(({ commonAs }) => commonAs !== null));
  return {
    ...about,
    standardUncertainty_W: whole.u,
    random_W: random.u,
    expandedRandom_W: random.k * random.u,
    common_W: common.u,
    expandedCommon_W: common.k * common.u,
    degreesOfFreedom: whole.degreesOfFreedom,
    coverageFactor: whole.k,
    expandedUncertainty_W: whole.k * whole.u,
    rows,
  };
}

function together(rows: readonly RowDraft[]) {
  const { u, degreesOfFreedom } = combine(
    rows.map((row) => ({ u: row.contribution_W, degreesOfFreedom: row.degreesOfFreedom })),
  );
  const rectangles = rows.filter(({ distribution }) => distribution === 'rectangular');
  const widest = Math.max(0, ...rectangles.map(({ contribution_W }) => contribution_W));
  const largestRectangle = u > 0 ? (widest / u) ** 2 : 0;
  const k = coverageFactor({ largestRectangle, degreesOfFreedom });
  return { u, degreesOfFreedom, k };
}
