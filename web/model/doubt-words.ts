/** What makes a trial doubtful, in words: in the list, in the band, and aloud as it is logged. */
import { UNIT_SPACE } from '#core/metrology/format.ts';
import type { ExperimentView } from '#core/experiment/view.ts';
import type { TrialView } from '#core/live-messages.ts';
import type { Catalogue } from '../words/catalogue.ts';

/** Nothing of a struck trial: it has been looked at. */
export function doubtWords(
  { doubts }: Pick<ExperimentView, 'doubts'>,
  { id, struck }: Pick<TrialView, 'id' | 'struck'>,
  words: Catalogue,
): string {
  if (struck) return '';
  return doubts
    .filter(({ trialId }) => trialId === id)
    .map(({ kind, share }) => words.doubt[kind](id, percentOf(share)))
    .join(' ');
}

function percentOf(share: number): string {
  return `${Math.abs(100 * share).toFixed(0)}${UNIT_SPACE}%`;
}
