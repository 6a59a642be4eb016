/** What to run next: levels tried once come first, then the two that are hardest to tell apart. */
import type { Best, Comparison, LevelSummary } from './comparison-schema.ts';
import type { Words } from './words.ts';

export function nextTrials(
  levels: readonly LevelSummary[],
  best: Best,
  words: Words,
): Comparison['next'] {
  const once = levels.filter(({ count, didNotTurn }) => count + didNotTurn < 2);
  if (once.length > 0) {
    const reason = 'It was tried only once: set it again to see how much it changes.';
    return once.map(({ level }) => ({ level, reason }));
  }
  const [rival] = best.tiedWith;
  if (best.level === null || rival === undefined || best.reason === 'no-scatter') return [];
  const countOf = (wanted: Best['level']): number => levels.find(({ level }) => level === wanted)?.count ?? 0;
  // Fewer trials: more to be learnt there.
  const pair = [best.level, rival].sort((one, other) => countOf(one) - countOf(other));
  return pair.map((level) => {
    const other = level === best.level ? rival : best.level!;
    return { level, reason: `It can't be told apart yet from ${words.level(other)}.` };
  });
}
