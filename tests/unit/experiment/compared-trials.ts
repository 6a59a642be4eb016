import type { ComparedTrial, LevelKey } from '#core/experiment/comparison/comparison-schema.ts';

export function trial(level: LevelKey, response: number, rest: Partial<ComparedTrial> = {}): ComparedTrial {
  const nothing = { block: null, order: null, second: null, standardUncertainty: null };
  return { level, response, didNotTurn: false, ...nothing, ...rest };
}

/** Trials by level, given as [level, responses]. */
export function trialsOf(...levels: readonly (readonly [LevelKey, readonly number[]])[]): ComparedTrial[] {
  return levels.flatMap(([level, responses]) => responses.map((response) => trial(level, response)));
}
