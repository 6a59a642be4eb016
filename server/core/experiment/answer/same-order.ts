/** Whether the levels came in the same order each time. */
import type { ComparedTrial, LevelKey } from '../comparison/comparison-schema.ts';

/**
 * What creeps through a lesson then favours the same levels in every round: blocks don't take it
 * out, and it can't be told from the levels' own effect (common practice: randomise within blocks).
 * @param settings in the order in which they were tried
 * @returns false where no two levels came twice
 */
export function isSameOrder(settings: readonly Pick<ComparedTrial, 'level' | 'block'>[]): boolean {
  const rounds = new Map<ComparedTrial['block'], LevelKey[]>();
  for (const { level, block } of settings) {
    const round = rounds.get(block) ?? [];
    // A level that comes back within its round has its place where it came first.
    if (!round.includes(level)) rounds.set(block, [...round, level]);
  }
  const [first = [], ...others] = rounds.values();
  const places = others.map((round) => {
    return round.map((level) => first.indexOf(level)).filter((at) => at >= 0);
  });
  const isInOrder = places.every((round) => round.every((at, i) => at > (round[i - 1] ?? -1)));
  return isInOrder && places.some((round) => round.length > 1);
}

/** Whether each level was done with before the next began, which is weaker still. */
export function isLevelByLevel(settings: readonly Pick<ComparedTrial, 'level'>[]): boolean {
  const levels = settings.map(({ level }) => level);
  const begun = levels.filter((level, i) => level !== levels[i - 1]);
  const count = new Set(levels).size;
  return count > 1 && levels.length > count && begun.length === count;
}
