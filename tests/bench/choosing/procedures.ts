/** Ways to judge which levels may still be the best: the tool's, and published ones beside it. */
import { fitBlocks } from '#core/experiment/choosing/block-model.ts';
import { comparableOf } from '#core/experiment/choosing/comparable.ts';
import { differenceEvidence } from '#core/experiment/choosing/difference-evidence.ts';
import type { LevelTrial } from '#core/experiment/choosing/level-trial.ts';
import { ERROR_SHARE } from '#core/experiment/choosing/error-shares.ts';
import { standingOf } from '#core/experiment/choosing/standing.ts';
import { stillPossible } from '#core/experiment/choosing/still-possible.ts';
import { studentizedRange, type StudentizedRange } from '#core/statistics/studentized-range.ts';

export interface Procedure {
  readonly name: string;
  /** Whether it is asked after every trial, or only when a round is whole. */
  readonly asked: 'every trial' | 'every round';
  /** The levels that may still be the best. */
  possible(trials: readonly LevelTrial[], levels: readonly number[]): number[];
}

/** Tukey's all pairs at `share` (J. W. Tukey 1953), on logarithms with blocks. */
function tukey(name: string, share: number, asked: Procedure['asked']): Procedure {
  return {
    name,
    asked,
    possible(trials, levels) {
      const { readings, levels: found } = comparableOf(trials);
      const keys = found.map(Number);
      const k = keys.length;
      const fit = fitBlocks(readings, k);
      if (k < 2 || fit.degreesOfFreedom < 1) return [...levels];
      const scatter = Math.sqrt(fit.squares / fit.degreesOfFreedom);
      const widest = criticalRange(k, fit.degreesOfFreedom, share) / Math.SQRT2;
      const beaten = (b: number): boolean =>
        keys.some((_, a) => {
          if (a === b || !fit.linked(a, b)) return false;
          const error = scatter * Math.sqrt(fit.contrastVariance(a, b));
          return (fit.effects[a]! - fit.effects[b]!) / error > widest;
        });
      return levels.filter((level) => !keys.includes(level) || !beaten(keys.indexOf(level)));
    },
  };
}

const ranges = new Map<number, StudentizedRange>();
const criticals = new Map<string, number>();

function criticalRange(k: number, freedom: number, share: number): number {
  const key = `${k} ${freedom} ${share}`;
  const range = ranges.get(k) ?? studentizedRange(k);
  ranges.set(k, range);
  const critical = criticals.get(key) ?? range.upperQuantile(share, freedom);
  criticals.set(key, critical);
  return critical;
}

/** The evidence alone, with all of the error; the scatter is always that of all levels. */
const pooled: Procedure = {
  name: 'e-values alone at 5 %, pooled scatter',
  asked: 'every trial',
  possible(trials, levels) {
    const { readings, levels: found } = comparableOf(trials);
    const keys = found.map(Number);
    const k = keys.length;
    const fit = fitBlocks(readings, k);
    if (k < 2 || fit.degreesOfFreedom < 1) return [...levels];
    const scatter = Math.sqrt(fit.squares / fit.degreesOfFreedom);
    const against = keys.map((_, b) => {
      const over = keys.map((_level, a) => {
        if (a === b) return 0;
        if (!fit.linked(a, b)) return 1;
        const variance = fit.contrastVariance(a, b);
        const t = (fit.effects[a]! - fit.effects[b]!) / (scatter * Math.sqrt(variance));
        return differenceEvidence({ t, variance, degreesOfFreedom: fit.degreesOfFreedom }).above;
      });
      return over.reduce((sum, evidence) => sum + evidence, 0) / (k - 1);
    });
    const is = stillPossible(against, ERROR_SHARE);
    return levels.filter((level) => !keys.includes(level) || is[keys.indexOf(level)]!);
  },
};

const tool: Procedure = {
  name: 'evidence and rounds (the tool)',
  asked: 'every trial',
  possible(trials, levels) {
    const { possible } = standingOf(trials);
    const tried = new Set(trials.map(({ level }) => level));
    return levels.filter((level) => !tried.has(level) || possible.includes(level));
  },
};

/** Looks that are planned for where the error is shared out among them. */
const LOOKS = 7;

export const PROCEDURES: readonly Procedure[] = [
  tukey('Tukey at 5 %, every trial', ERROR_SHARE, 'every trial'),
  tukey('Tukey at 5 %, every round', ERROR_SHARE, 'every round'),
  // K. K. G. Lan, D. L. DeMets, Biometrika 70 (1983) 659, linear spending, looks taken as if they
  // were independent of each other (Bonferroni).
  tukey('Tukey, 5 % spent evenly on 7 rounds', ERROR_SHARE / LOOKS, 'every round'),
  // S. J. Pocock, Biometrika 64 (1977) 191: one level for all looks, found by simulation.
  tukey('Tukey at 1.2 % (Pocock, 7 rounds)', 0.012, 'every round'),
  pooled,
  tool,
];
