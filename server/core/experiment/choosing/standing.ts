/** Where the levels stand after these trials: the decision without its tables. */
import type { Contrasts } from './contrast.ts';
import { differenceEvidence } from './difference-evidence.ts';
import { fittedTo, type Fitted } from './fitted.ts';
import { levelsOf, type LevelKey, type LevelTrial } from './level-trial.ts';
import { stillPossible } from './still-possible.ts';
import { outByRounds, ROUNDS_ERROR_SHARE } from './whole-rounds.ts';

/** The share of experiments in which a claim may be wrong. */
export const ERROR_SHARE = 0.05;
/** What of it is left for the evidence that is looked at after every trial. */
export const EVIDENCE_ERROR_SHARE = ERROR_SHARE - ROUNDS_ERROR_SHARE;
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
  const { comparable, estimates, contrasts } = fitted;
  const { levels, zeros } = comparable;
  const leader = levels[highestOf(estimates)] ?? null;
  const against = evidenceAgainst(levels.length, contrasts);
  const turning = stillPossible(against, EVIDENCE_ERROR_SHARE);
  const out = outByRounds(trials);
  // Where later trials have turned the order, what whole rounds said no longer counts.
  const isOut = (level: LevelKey): boolean => !out.has(leader!) && out.has(level);
  const isJudged = (level: LevelKey): boolean =>
    trials.filter((trial) => trial.level === level).length >= LEAST_TRIALS;
  const all = levelsOf(trials);
  const possible = all.filter((level) =>
    levels.includes(level)
      ? turning[levels.indexOf(level)] && !isOut(level)
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

/** For each level an e-value against its being a best one: the mean of the others' over it. */
function evidenceAgainst(k: number, contrasts: Contrasts): number[] {
  const against = new Array<number>(k).fill(0);
  for (let a = 0; a < k; a++) {
    for (let b = 0; b < a; b++) {
      const contrast = contrasts(a, b);
      const { above, below } =
        contrast === null ? { above: 1, below: 1 } : differenceEvidence(contrast.student);
      against[b]! += above / (k - 1);
      against[a]! += below / (k - 1);
    }
  }
  return against;
}
