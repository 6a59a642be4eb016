/** What makes a trial doubtful, in words: in the list, in the band, and aloud as it is logged. */
import { doubtsOf } from '#core/experiment/doubts/doubts.ts';
import { UNIT_SPACE } from '#core/metrology/format.ts';
import type { Doubt, ExperimentView } from '#core/experiment/view.ts';
import type { TrialView } from '#core/live-messages.ts';
import type { Catalogue } from '../words/catalogue.ts';

type Doubts = Pick<ExperimentView, 'doubts'>;

/** Nothing of a struck trial: it has been looked at. */
export function doubtWords(
  { doubts }: Doubts,
  { id, struck }: Pick<TrialView, 'id' | 'struck'>,
  words: Catalogue,
): string {
  return struck ? '' : inWords(doubts.filter(({ trialId }) => trialId === id), words);
}

/**
 * What came to light with this trial, the newest: about itself, and about older ones that looked
 * well as long as it was not there.
 * @param trials all, by number
 */
export function broughtToLight(
  { doubts }: Doubts,
  { id, struck }: Pick<TrialView, 'id' | 'struck'>,
  trials: readonly TrialView[],
  words: Catalogue,
): string {
  if (struck || doubts.length === 0) return '';
  const before = doubtsOf(trials.filter((trial) => trial.id < id));
  const isNew = ({ trialId, kind }: Doubt): boolean =>
    !before.some((known) => known.trialId === trialId && known.kind === kind);
  return inWords(doubts.filter((one) => one.trialId === id || isNew(one)), words);
}

/** The same of the newest trial where it was keyed in: no stretch of readings brings it up. */
export function doubtKeyedIn(
  experiment: Doubts,
  trials: readonly TrialView[],
  words: Catalogue,
): string {
  const newest = trials.at(-1);
  return newest?.origin === 'keyed' ? broughtToLight(experiment, newest, trials, words) : '';
}

function inWords(doubts: readonly Doubt[], words: Catalogue): string {
  return doubts
    .map(({ kind, trialId, share }) => words.doubt[kind](trialId, percentOf(share), share < 0))
    .join(' ');
}

function percentOf(share: number): string {
  return `${Math.abs(100 * share).toFixed(0)}${UNIT_SPACE}%`;
}
