/** A trial's budget with its check, as page and HTTP have it: the same for the same trial. */
import type { MeasuredValue } from '../../metrology/measured-value.ts';
import type { RotorAndAir } from '../../rotor/wind/rotor-and-air.ts';
import { createRandom } from '../../virtual-rig/random.ts';
import type { Trial } from '../trial.ts';
import { budgetOf, type Budget } from './budget.ts';
import { checkBudget, type Check } from './check.ts';
import {
  coefficientOfTrial,
  measuredCoefficient,
  type CoefficientTrial,
  type TrialCoefficient,
} from './coefficient-of-trial.ts';
import type { RigFits } from '../../rotor/fitting/rig-fits.ts';
import { speedOfTrial, type SpeedAnswer, type SpeedTrial } from '../speed/speed-of-trial.ts';
import type { TrialSpeed } from '../speed/trial-speed.ts';
import { saidOrHeard, type KnownAir } from './known-air.ts';
import { rigOf, type KnownInstrument } from './known-instruments.ts';
import type { BudgetedTrial } from './rows.ts';

export interface BudgetAnswer {
  /** Null for a trial without power. */
  readonly budget: Budget | null;
  readonly check: Check | null;
  readonly coefficient: TrialCoefficient;
  readonly speed: SpeedAnswer;
}

/** What a session's results rest on besides its readings. */
export interface Described {
  readonly instruments: readonly KnownInstrument[];
  readonly rotorAndAir: RotorAndAir | null;
  readonly airs: readonly KnownAir[];
}

/** And figures of the rig. */
export interface DescribedWithFits extends Described {
  readonly fits: RigFits;
}

type AskedTrial = BudgetedTrial & CoefficientTrial & SpeedTrial & Pick<Trial, 'recordingId'>;

/** The draws of the check are seeded by the trial's number: asked again, it says the same. */
export function budgetAnswer(
  trial: AskedTrial,
  { instruments, rotorAndAir, airs, fits }: DescribedWithFits,
): BudgetAnswer {
  const rig = rigOf(trial, instruments);
  const budget = budgetOf(trial, rig);
  const said = rotorAndAir && saidOrHeard(rotorAndAir, trial, airs);
  const speed = speedOfTrial(trial, said, fits);
  const coefficient = coefficientOfTrial(
    { ...trial, rotorSpeed_radps: speed.speed?.rotorSpeed_radps ?? null },
    budget,
    said,
  );
  if (budget === null) return { budget, check: null, coefficient, speed };
  const check = checkBudget(trial, rig, { budget, random: createRandom(trial.id) });
  return { budget, check, coefficient, speed };
}

/** The power coefficient that a trial is told with: derived whenever it is asked for, never kept. */
export function coefficientToTell(
  trial: AskedTrial,
  { instruments, rotorAndAir, airs }: Described,
): MeasuredValue | null {
  if (rotorAndAir === null) return null;
  const budget = budgetOf(trial, rigOf(trial, instruments));
  const said = saidOrHeard(rotorAndAir, trial, airs);
  return measuredCoefficient(coefficientOfTrial(trial, budget, said));
}

/** How fast it turned, likewise. */
export function speedToTell(
  trial: SpeedTrial & Pick<Trial, 'recordingId'>,
  { rotorAndAir, airs, fits }: DescribedWithFits,
): TrialSpeed | null {
  return speedOfTrial(trial, rotorAndAir && saidOrHeard(rotorAndAir, trial, airs), fits).speed;
}
