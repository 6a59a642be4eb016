/** Where the levels stand after these trials: the decision without its tables. */
import { possibleByEvidence } from './evidence.ts';
import { fittedTo, type Fitted } from './fitted.ts';
import { levelsOf, type LevelKey, type LevelTrial } from './level-trial.ts';
import { outByRounds } from './rounds.ts';

/** A level at which nothing turned is ruled out from so many trials on. */
const LEAST_TRIALS = 2;
const ROUNDING = 1e-12;

export interface Standing extends Fitted {
  /** All levels that may still be the best. */
  readonly possible: readonly LevelKey[];
  /** The level that stands highest so far; null where nothing turned. */
  readonly leader: LevelKey | null;
  readonly best: LevelKey | null;
}

export function standingOf(trials: readonly LevelTrial[]): Standing {
  const fitted = fittedTo(trials);
  const { comparable, estimates } = fitted;
  const { levels, zeros } = comparable;
  const leader = levels[highestOf(estimates)] ?? null;
  const byEvidence = possibleByEvidence(fitted);
  const out = outByRounds(trials);
  // Where later trials have turned the order, what the rounds said no longer counts.
  const isOut = (level: LevelKey): boolean => !out.has(leader!) && out.has(level);
  const isJudged = (level: LevelKey): boolean =>
    trials.filter((trial) => trial.level === level).length >= LEAST_TRIALS;
  const all = levelsOf(trials);
  const possible = all.filter((level) =>
    levels.includes(level)
      ? byEvidence.includes(level) && !isOut(level)
      : leader === null || !isJudged(level) || !isJudged(leader),
  );
  const [first] = possible;
  const isSure = possible.length === 1 && all.length > 1 && !zeros.has(first!);
  return { ...fitted, possible, leader, best: isSure ? first! : null };
}

/** The first of those that are highest but for rounding. */
function highestOf(estimates: readonly number[]): number {
  const most = Math.max(...estimates);
  return estimates.findIndex((estimate) => estimate >= most - ROUNDING * (1 + Math.abs(most)));
}
