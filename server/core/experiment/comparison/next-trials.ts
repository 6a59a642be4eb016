/** What to run next, in words; the choice itself is in ../choosing/. */
import { adviseNext, type AdvisedRun } from '../choosing/advise-next.ts';
import type { LevelTrial } from '../choosing/level-trial.ts';
import type { Best, Comparison, LevelKey } from './comparison-schema.ts';
import type { Words } from './words.ts';

/**
 * In the order in which to run them; empty when nothing more is to be found out.
 * @param trials in the order in which they were made
 */
export function nextTrials(
  levels: readonly LevelKey[],
  trials: readonly LevelTrial[],
  best: Best,
  words: Words,
): Comparison['next'] {
  if (best.reason === 'clear' || best.reason === 'no-scatter' || levels.length < 2) return [];
  const { set } = adviseNext({ trials, levels, left: [] });
  // A single look at the tables may have told levels apart that the advice would still run.
  const inQuestion = best.reason === 'tied' ? [best.level, ...best.tiedWith] : levels;
  return set
    .filter(({ level }) => inQuestion.includes(level))
    .map(({ level, reason }) => ({ level, reason: inWords(reason, words) }));
}

function inWords(reason: AdvisedRun['reason'], words: Words): string {
  switch (reason.kind) {
    case 'untried':
      return 'It was not tried yet.';
    case 'scatter':
      return 'Set it again to see how much it changes.';
    case 'close':
      return `It can't be told apart yet from ${words.level(reason.from)}.`;
  }
}
