/**
 * What could be better, found in the session's own numbers. Each with what it was found by, so that
 * a page may say it in its own words.
 */
import { meanOf, standardDeviationOf } from '../../metrology/type-a/series.ts';
import { ALPHA } from '../../statistics/groups.ts';
import type { Answer } from '../answer/answer.ts';
import type { Budget } from '../budget/budget.ts';
import type { BudgetCause } from '../budget/row.ts';
import type { ShownTrial } from '../trial.ts';
import type { ExperimentView } from '../view.ts';
import { creptIn } from './drifted.ts';
import { scatterOf, type Residual } from './residuals.ts';

export type Improvement =
  | { readonly kind: 'few-rounds'; readonly times: number }
  | { readonly kind: 'listed-order' }
  /** Power crept over the trials; falling power is negative. */
  | { readonly kind: 'drift'; readonly share: number }
  /** Setting a level anew changed its power by this share, as a rule. */
  | { readonly kind: 'scatter'; readonly share: number }
  /** Some levels scatter more than others. */
  | { readonly kind: 'unequal-scatter' }
  | { readonly kind: 'wind-unsteady'; readonly share: number }
  | { readonly kind: 'wind-not-measured' }
  /** What all trials have in common leaves this much of power open, and mostly for this reason. */
  | { readonly kind: 'instruments'; readonly share: number; readonly cause: BudgetCause }
  | { readonly kind: 'instruments-unknown' }
  | { readonly kind: 'runs-missing'; readonly count: number }
  | { readonly kind: 'struck'; readonly count: number; readonly withoutReason: number }
  | { readonly kind: 'doubts'; readonly count: number }
  /** The most lies at the outermost level. */
  | { readonly kind: 'edge' }
  | { readonly kind: 'two-levels' }
  | { readonly kind: 'nothing-constant' };

/** Rounds of which it is said that more would help. */
const ENOUGH_ROUNDS = 3;
/** Shares of power, or of wind, from which on something is worth saying. Common practice. */
const WORTH_SAYING = { scatter: 0.05, wind: 0.03, instruments: 0.05 } as const;
/** A scatter known from fewer degrees of freedom tells nothing. */
const LEAST_FREEDOM = 3;

export interface Looked {
  readonly experiment: ExperimentView;
  readonly trials: readonly ShownTrial[];
  readonly answer: Answer;
  readonly residuals: readonly Residual[];
  /** Of the trial that the report's budget is about; null where there is none. */
  readonly budget: Budget | null;
}

/** The most telling first. */
export function improvementsOf(looked: Looked): readonly Improvement[] {
  return [
    ...ofOrder(looked),
    ...ofScatter(looked),
    ...ofWind(looked),
    ...ofInstruments(looked),
    ...ofWhatWasDone(looked),
    ...ofLevels(looked),
  ];
}

function ofOrder({ experiment, answer, residuals }: Looked): Improvement[] {
  const crept = creptIn(answer.comparison, residuals);
  const counts = answer.comparison.levels.map(({ count, didNotTurn }) => count + didNotTurn);
  const times = counts.length === 0 ? 0 : Math.min(...counts);
  return [
    ...(times > 0 && times < ENOUGH_ROUNDS ? [{ kind: 'few-rounds', times } as const] : []),
    ...(experiment.plan?.order === 'listed' || answer.isSameOrder ? [{ kind: 'listed-order' } as const] : []),
    ...(crept === null ? [] : [{ kind: 'drift', share: crept.share } as const]),
  ];
}

function ofScatter({ answer, residuals }: Looked): Improvement[] {
  const scatter = scatterOf(residuals);
  const { equalScatter } = answer.comparison;
  const isKnown = scatter !== null && scatter.degreesOfFreedom >= LEAST_FREEDOM;
  const isUnequal = equalScatter !== null && equalScatter.p < ALPHA;
  return [
    ...(isKnown && scatter.share > WORTH_SAYING.scatter
      ? [{ kind: 'scatter', share: scatter.share } as const]
      : []),
    ...(isUnequal ? [{ kind: 'unequal-scatter' } as const] : []),
  ];
}

/** From trial to trial, beyond what a reading of the wind is uncertain by. */
function ofWind({ answer }: Looked): Improvement[] {
  const trials = answer.settings.flatMap((setting) => setting.trials);
  const winds = trials.flatMap(({ windSpeed_mps }) => windSpeed_mps ?? []);
  if (winds.length === 0) return trials.length === 0 ? [] : [{ kind: 'wind-not-measured' }];
  const values = winds.map(({ value }) => value);
  const mean = meanOf(values);
  // Where the fan is what is varied, the wind is meant to differ.
  const isMeant = answer.factor.kind === 'fan';
  if (isMeant || values.length <= LEAST_FREEDOM || !(mean > 0)) return [];
  const known = meanOf(winds.map(({ standardUncertainty: u }) => (u ?? 0) ** 2));
  const share = Math.sqrt(Math.max(0, standardDeviationOf(values) ** 2 - known)) / mean;
  return share > WORTH_SAYING.wind ? [{ kind: 'wind-unsteady', share }] : [];
}

function ofInstruments({ budget }: Looked): Improvement[] {
  if (budget === null || !(budget.value_W > 0)) return [];
  const share = budget.expandedCommon_W / budget.value_W;
  const largest = budget.rows.find(({ commonAs }) => commonAs !== null);
  return [
    ...(budget.gaps.length > 0 ? [{ kind: 'instruments-unknown' } as const] : []),
    ...(largest !== undefined && share > WORTH_SAYING.instruments
      ? [{ kind: 'instruments', share, cause: largest.cause } as const]
      : []),
  ];
}

function ofWhatWasDone({ experiment, trials }: Looked): Improvement[] {
  const struck = trials.filter((trial) => trial.struck);
  const withoutReason = struck.filter(({ strikeReason }) => strikeReason === null).length;
  const missing = experiment.runs.filter(({ trialIds }) => trialIds.length === 0).length;
  const struckIds = new Set(struck.map(({ id }) => id));
  const doubted = experiment.doubts.filter(({ trialId }) => !struckIds.has(trialId));
  const doubts = new Set(doubted.map(({ trialId }) => trialId)).size;
  return [
    ...(missing > 0 ? [{ kind: 'runs-missing', count: missing } as const] : []),
    ...(doubts > 0 ? [{ kind: 'doubts', count: doubts } as const] : []),
    ...(struck.length > 0
      ? [{ kind: 'struck', count: struck.length, withoutReason } as const]
      : []),
  ];
}

function ofLevels({ experiment, answer }: Looked): Improvement[] {
  const { factor, optimum } = answer;
  const areNumbers = factor.levels.every(({ value }) => value !== null);
  return [
    ...(optimum?.kind === 'edge' ? [{ kind: 'edge' } as const] : []),
    ...(areNumbers && factor.levels.length === 2 ? [{ kind: 'two-levels' } as const] : []),
    ...(experiment.plan?.constants.length === 0 ? [{ kind: 'nothing-constant' } as const] : []),
  ];
}
