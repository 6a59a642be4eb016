/** Trials by level: numbers from the smallest up, names in the order in which they first came. */
import { meanOf, standardDeviationOf } from '../../metrology/type-a/series.ts';
import { meanInterval } from '../../statistics/mean-interval.ts';
import type { ComparedTrial, LevelKey, LevelSummary } from './comparison-schema.ts';

export interface LevelGroup {
  readonly level: LevelKey;
  /** Trials in which the rotor turned. */
  readonly trials: readonly ComparedTrial[];
  readonly didNotTurn: number;
}

/** A group with at least one trial in which the rotor turned. */
export function hasTurned({ trials }: LevelGroup): boolean {
  return trials.length > 0;
}

export function isNumeric(levels: LevelKey[]): levels is number[] {
  return levels.every((level) => typeof level === 'number');
}

export function groupByLevel(trials: readonly ComparedTrial[]): readonly LevelGroup[] {
  const groups = new Map<LevelKey, { turned: ComparedTrial[]; didNotTurn: number }>();
  for (const trial of trials) {
    const group = groups.get(trial.level) ?? { turned: [], didNotTurn: 0 };
    if (trial.didNotTurn) group.didNotTurn += 1;
    else group.turned.push(trial);
    groups.set(trial.level, group);
  }
  const levels = [...groups.keys()];
  const ordered = isNumeric(levels) ? levels.sort((a, b) => a - b) : levels;
  return ordered.map((level) => {
    const { turned, didNotTurn } = groups.get(level)!;
    return { level, trials: turned, didNotTurn };
  });
}

export function responsesOf({ trials }: LevelGroup): number[] {
  return trials.map(({ response }) => response);
}

/** Coverage factor for a reading whose uncertainty is taken as well known (GUM, G.6.6). */
const WELL_KNOWN = 2;

export function summaryOf(group: LevelGroup): LevelSummary {
  const { level, trials, didNotTurn } = group;
  const values = responsesOf(group);
  const unknown = { low: null, high: null, limitsFrom: null, standardDeviation: null } as const;
  const counts = { level, count: trials.length, didNotTurn };
  if (trials.length === 0) return { ...counts, mean: null, ...unknown };
  const mean = meanOf(values);
  if (trials.length === 1) {
    const u = trials[0]?.standardUncertainty ?? null;
    if (u === null) return { ...counts, mean, ...unknown };
    const [low, high] = [mean - WELL_KNOWN * u, mean + WELL_KNOWN * u];
    return { ...counts, mean, standardDeviation: null, low, high, limitsFrom: 'reading' };
  }
  const standardDeviation = standardDeviationOf(values);
  const half = meanInterval(values).halfWidth;
  if (half === null || standardDeviation === 0) {
    return { ...counts, mean, ...unknown, standardDeviation };
  }
  return { ...counts, mean, standardDeviation, low: mean - half, high: mean + half, limitsFrom: 'trials' };
}
