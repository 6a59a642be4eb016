/**
 * All that a report says of an experiment in numbers: from the plan and the trials alone, so that
 * page and file have the same wherever the session is.
 */
import type { CurveBin } from '../../rotor/wind/power-curve.ts';
import { answerOf, type Answer } from '../answer/answer.ts';
import { budgetAnswer, type BudgetAnswer } from '../budget/answer.ts';
import { curveOfTrials } from '../budget/curve-of-trials.ts';
import type { Plan } from '../plan/plan.ts';
import type { ShownTrial } from '../trial.ts';
import type { ExperimentView } from '../view.ts';
import { creptIn, type Crept } from './drifted.ts';
import { improvementsOf, type Improvement } from './improvements.ts';
import { openQuestions, type OpenQuestion } from './open-questions.ts';
import { residualsOf, scatterOf, type Residual, type Scatter } from './residuals.ts';
import { inTheSameWind, type SameWind } from './same-wind.ts';
import { twoFactorsOf, type TwoFactors } from './two-factors.ts';

/** One factor's part: all of a plan, but in a series one after the other. */
export interface AnalysedPart {
  /** Of the factor that varies among the plan's. */
  readonly place: number;
  readonly answer: Answer;
  readonly residuals: readonly Residual[];
  readonly scatter: Scatter | null;
  readonly crept: Crept | null;
  readonly twoFactors: TwoFactors | null;
  /** The levels in one wind, where the wind was not; null where that makes no difference. */
  readonly sameWind: SameWind | null;
  /** By bins of wind, where the fan is what is varied and the rotor described; else none. */
  readonly powerCurve: readonly CurveBin[];
  /** Where the ± of one trial at its highest level comes from; null where no trial has power. */
  readonly budgeted: BudgetedTrial | null;
}

export interface BudgetedTrial extends BudgetAnswer {
  readonly trial: ShownTrial;
}

export interface Analysis {
  readonly plan: Plan;
  readonly parts: readonly AnalysedPart[];
  readonly improvements: readonly Improvement[];
  readonly openQuestions: readonly OpenQuestion[];
}

/** null where there is no plan. @param trials by number */
export function analysisOf(
  experiment: ExperimentView,
  trials: readonly ShownTrial[],
): Analysis | null {
  const { plan } = experiment;
  if (plan === null) return null;
  const places = plan.design === 'series' ? plan.factors.map((_, place) => place) : [0];
  const parts = places.flatMap((place) => partOf(experiment, trials, place) ?? []);
  const improvements = parts.flatMap(({ answer, residuals, budgeted }) =>
    improvementsOf({ experiment, trials, answer, residuals, budget: budgeted?.budget ?? null }),
  );
  const isSimulated = trials.some(({ simulated }) => simulated);
  const answers = parts.map(({ answer }) => answer);
  return {
    plan,
    parts,
    improvements: withoutRepeats(improvements),
    openQuestions: openQuestions(plan, answers, isSimulated),
  };
}

/** What holds for the whole experiment is found in each of its parts. */
function withoutRepeats(improvements: readonly Improvement[]): readonly Improvement[] {
  const seen = new Map(improvements.map((one) => [JSON.stringify(one), one]));
  return [...seen.values()];
}

function partOf(
  experiment: ExperimentView,
  trials: readonly ShownTrial[],
  place: number,
): AnalysedPart | null {
  const answer = answerOf(experiment, trials, place);
  if (answer === null || experiment.plan === null) return null;
  const residuals = residualsOf(answer);
  return {
    place,
    answer,
    residuals,
    scatter: scatterOf(residuals),
    crept: creptIn(answer.comparison, residuals),
    twoFactors: twoFactorsOf(experiment.plan, answer),
    sameWind: answer.factor.kind === 'fan' ? null : inTheSameWind(answer),
    powerCurve: powerCurveOf(experiment, answer),
    budgeted: budgetedTrial(experiment, answer),
  };
}

/** Of the trials of one rotor, set alike, in different winds. */
function powerCurveOf(
  experiment: ExperimentView,
  { factor, settings }: Answer,
): readonly CurveBin[] {
  if (factor.kind !== 'fan' || experiment.plan?.design === 'factorial') return [];
  const trials = settings.flatMap((setting) => setting.trials);
  const turning = trials.filter(({ rotorStill }) => !rotorStill);
  return curveOfTrials(turning, experiment);
}

/** The newest trial at the highest level that is no longer being worked on. */
function budgetedTrial(experiment: ExperimentView, answer: Answer): BudgetedTrial | null {
  const { best } = answer.comparison;
  const setting = answer.settings.findLast(({ level, power_W }) => {
    return power_W !== null && level === best.level;
  });
  const trial = setting?.trials.findLast(({ rotorStill }) => !rotorStill);
  return trial === undefined ? null : { trial, ...budgetAnswer(trial, experiment) };
}
