/** How a trial came to what it is: the states of it that were committed, in words. */
import type { TrialView } from '#core/live-messages.ts';
import { NO_VALUE } from '#core/metrology/format.ts';
import type { Catalogue } from '../words/catalogue.ts';
import { seconds } from '../words/numbers.ts';
import type { Prefixes } from './quantities.ts';
import { stateWords } from './trial-words.ts';
import { resultText } from './words.ts';

/** One line a state, oldest first; none where nothing has become of what was logged. */
export function historyLines(
  revisions: readonly TrialView[],
  prefixes: Pick<Prefixes, 'power_W'>,
  words: Catalogue,
): readonly string[] {
  if (revisions.length < 2) return [];
  return revisions.map((trial, i) => {
    const { power_W, start_s, end_s } = trial;
    const result = power_W === null ? NO_VALUE : resultText(power_W, prefixes, words);
    const over = words.budget.history.over(seconds(end_s - start_s));
    return [result, over, happened(trial, revisions[i - 1], words)].filter(Boolean).join(' · ');
  });
}

/** What brought this state about. */
function happened(trial: TrialView, before: TrialView | undefined, words: Catalogue): string {
  const { asLogged, asEnded } = words.budget.history;
  const marks = stateWords({ ...trial, simulated: false, state: 'final' }, words.top.list);
  const when = before === undefined ? asLogged : before.state === 'logged' && trial.state !== 'logged' ? asEnded : '';
  return [when, marks].filter(Boolean).join(' · ');
}
