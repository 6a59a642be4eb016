/** What pages say of the answer so far: covered, by the plan's levels, or by trials alone. */
import type { Answer } from '#core/experiment/answer/answer.ts';
import type { ExperimentView } from '#core/experiment/view.ts';
import type { TrialView } from '#core/live-messages.ts';
import type { Prefix } from '#core/metrology/format.ts';
import type { Catalogue } from '../words/catalogue.ts';
import { answerSaid } from './answer-said.ts';
import { countingTrials, sentenceOf, type Sentence } from './sentence.ts';
import type { Stage } from './stage.ts';

export interface Told {
  readonly experiment: ExperimentView;
  readonly answer: Answer | null;
  readonly trials: readonly TrialView[];
  /** Of power. */
  readonly prefix: Prefix;
  readonly words: Catalogue;
  readonly stage: Stage;
}

export function sentenceNow(told: Told): Sentence {
  const { experiment, answer, trials, prefix, stage, words } = told;
  if (experiment.isCovered) return { said: words.sentence.covered, small: '' };
  // Without a board nothing becomes a trial by itself.
  if (stage === 'meters' && trials.length === 0) {
    return { said: words.sentence.nothingYet, small: words.below.meters.detail };
  }
  const byLevels = answer === null ? null : answerSaid(answer, words);
  if (byLevels !== null) return byLevels;
  const said = sentenceOf(trials, prefix, words);
  // Of the runs of this plan none is done, whatever was logged before it.
  const isBefore = experiment.plan !== null && countingTrials(trials).length > 0;
  return isBefore ? { ...said, small: words.sentence.noneOfPlan } : said;
}
