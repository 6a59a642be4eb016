/** A trial's budget with its check, as page and HTTP have it: the same for the same trial. */
import { createRandom } from '../../virtual-rig/random.ts';
import type { Trial } from '../trial.ts';
import { budgetOf, type Budget } from './budget.ts';
import { checkBudget, type Check } from './check.ts';
import { rigOf, type KnownInstrument } from './known-instruments.ts';
import type { BudgetedTrial } from './rows.ts';

export interface BudgetAnswer {
  /** Null for a trial without power. */
  readonly budget: Budget | null;
  readonly check: Check | null;
}

/** The draws of the check are seeded by the trial's number: asked again, it says the same. */
export function budgetAnswer(
  trial: BudgetedTrial & Pick<Trial, 'recordingId'>,
  instruments: readonly KnownInstrument[],
): BudgetAnswer {
  const rig = rigOf(trial, instruments);
  const budget = budgetOf(trial, rig);
  if (budget === null) return { budget, check: null };
  return { budget, check: checkBudget(trial, rig, { budget, random: createRandom(trial.id) }) };
}
