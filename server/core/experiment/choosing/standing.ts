/** Where the levels stand after these trials: the decision without its tables. */
import { fitBlocks, type BlockFit, type BlockReading } from './block-model.ts';
import { comparableOf, type Comparable } from './comparable.ts';
import { contrastsOf, type Contrasts } from './contrast.ts';
import { differenceEvidence } from './difference-evidence.ts';
import { levelsOf, type LevelKey, type LevelTrial } from './level-trial.ts';
import { stillPossible } from './still-possible.ts';

/** The share of experiments in which a claim may be wrong. */
export const ERROR_SHARE = 0.05;
/** A level at which nothing turned is ruled out from so many trials on. */
const LEAST_TRIALS = 2;
const ROUNDING = 1e-12;

export interface Standing {
  readonly comparable: Comparable;
  /** All levels that turned. */
  readonly fit: BlockFit;
  /** Of the levels that turned, on the scale of the comparison. */
  readonly estimates: readonly number[];
  readonly contrasts: Contrasts;
  /** All levels that may still be the best. */
  readonly possible: readonly LevelKey[];
  /** The level that stands highest so far; null where nothing turned. */
  readonly leader: LevelKey | null;
  readonly best: LevelKey | null;
}

export function standingOf(trials: readonly LevelTrial[]): Standing {
  const comparable = comparableOf(trials);
  const { levels, readings, zeros } = comparable;
  const fit = fitBlocks(readings, levels.length);
  const estimates = estimatesOf(fit, readings, levels.length);
  const contrasts = contrastsOf(comparable, { whole: fit, estimates });
  const turning = stillPossible(evidenceAgainst(levels.length, contrasts), ERROR_SHARE);
  const leader = levels[highestOf(estimates)] ?? null;
  const isJudged = (level: LevelKey): boolean =>
    trials.filter((trial) => trial.level === level).length >= LEAST_TRIALS;
  const all = levelsOf(trials);
  const possible = all.filter((level) =>
    levels.includes(level)
      ? turning[levels.indexOf(level)]
      : leader === null || !isJudged(level) || !isJudged(leader),
  );
  const [first] = possible;
  const isSure = possible.length === 1 && all.length > 1 && !zeros.has(first!);
  return { comparable, fit, estimates, contrasts, possible, leader, best: isSure ? first! : null };
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

/** Levels' effects as values: set at the readings' mean, in each component of linked levels. */
function estimatesOf(fit: BlockFit, readings: readonly BlockReading[], k: number): number[] {
  return Array.from({ length: k }, (_, a) => {
    const near = readings.filter(({ level }) => fit.linked(level, a));
    const rests = near.map(({ level, y }) => y - fit.effects[level]!);
    return fit.effects[a]! + rests.reduce((sum, rest) => sum + rest, 0) / rests.length;
  });
}
