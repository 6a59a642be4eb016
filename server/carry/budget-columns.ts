/** The columns of budgets.csv: for each trial with power, where its uncertainty comes from. */
import { budgetOf, type Budget } from '#core/experiment/budget/budget.ts';
import { rigOf } from '#core/experiment/budget/known-instruments.ts';
import type { BudgetRow } from '#core/experiment/budget/row.ts';
import type { Ledger } from '#core/experiment/conductor/ledger.ts';
import type { StoredTrial } from '../store/store.ts';
import type { Column } from './table.ts';

interface CauseOfTrial {
  readonly budget: Budget;
  readonly row: BudgetRow;
}

/** What limits, steps and gains have in common: a number of their own unit. */
const UNIT_NOTE = 'W, V, A; ratio: a share of the reading; step: of the converter; limit: what was stated.';

export const BUDGET_COLUMNS: readonly Column<CauseOfTrial>[] = [
  { name: 'trial', type: 'integer', description: 'Number of the trial.', of: ({ budget }) => budget.trialId },
  { name: 'cause', type: 'string', description: 'What may be wrong.', of: ({ row }) => row.cause },
  { name: 'channel', type: 'string', description: 'What it is wrong in: voltage, current, both, power.', of: ({ row }) => row.channel },
  { name: 'cause_unit', type: 'string', description: `Of the next two columns: ${UNIT_NOTE}`, of: ({ row }) => row.unit },
  { name: 'value', type: 'number', description: 'Value of the input, in that unit.', of: ({ row }) => row.value },
  { name: 'u', type: 'number', description: 'Its standard uncertainty (JCGM 100:2008), in that unit.', of: ({ row }) => row.standardUncertainty },
  { name: 'distribution', type: 'string', description: 'rectangular, normal or student.', of: ({ row }) => row.distribution },
  { name: 'dof', type: 'number', description: 'Its degrees of freedom; 1000000: endless.', of: ({ row }) => row.degreesOfFreedom },
  { name: 'sensitivity', type: 'number', description: 'Change of power in W for a change of one unit.', of: ({ row }) => row.sensitivity },
  { name: 'contribution_W', type: 'number', unit: 'W', description: 'What it adds to the standard uncertainty of power; contributions add up as squares.', of: ({ row }) => row.contribution_W },
  { name: 'share', type: 'number', unit: '1', description: 'Of the variance.', of: ({ row }) => row.share },
  { name: 'common_as', type: 'string', description: 'Trials with the same name here are off by the same amount, which is no scatter between them. Empty: this trial alone.', of: ({ row }) => row.commonAs },
  { name: 'u_power_W', type: 'number', unit: 'W', description: 'Standard uncertainty of the trial’s power with all its causes; with gaps at least this.', of: ({ budget }) => budget.standardUncertainty_W },
  { name: 'gaps', type: 'string', description: 'What nothing is known of, so that the uncertainty is at least what is given.', of: ({ budget }) => budget.gaps.join('; ') || null },
];

export function budgetRows(
  trials: readonly StoredTrial[],
  { instruments }: Ledger,
): CauseOfTrial[] {
  return trials.flatMap((trial) => {
    const budget = budgetOf(trial, rigOf(trial, instruments));
    return budget === null ? [] : budget.rows.map((row) => ({ budget, row }));
  });
}
