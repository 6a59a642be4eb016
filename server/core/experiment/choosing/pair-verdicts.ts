/** What can be said of every two levels, with limits that hold for all and at every look. */
import type { Contrast } from './contrast.ts';
import { evidentT } from './difference-evidence.ts';
import type { LevelKey } from './level-trial.ts';
import { EVIDENCE_ERROR_SHARE } from './error-shares.ts';
import type { Standing } from './standing.ts';

/** Limits of a difference; null: not bounded yet. */
export interface Limits {
  readonly low: number | null;
  readonly high: number | null;
}

/** a less b. */
export interface PairVerdict extends Limits {
  readonly a: LevelKey;
  readonly b: LevelKey;
  /** Null where no block links the two. */
  readonly difference: number | null;
  /** False: can't be told apart yet. */
  readonly toldApart: boolean;
}

/**
 * An error share for each pair and side, so that all limits hold together (Bonferroni). That a
 * level is the best is known from a sharper test, and sets the limits of its pairs (J. C. Hsu,
 * Ann. Statist. 9 (1981) 1026: constrained intervals).
 */
export function pairVerdicts({ comparable, fit, contrasts, best }: Standing): PairVerdict[] {
  const { levels } = comparable;
  const evidence = (levels.length * (levels.length - 1)) / EVIDENCE_ERROR_SHARE;
  return levels.flatMap((a, i) =>
    levels.slice(i + 1).map((b, rest) => {
      const j = i + 1 + rest;
      const free = limitsOf(contrasts(i, j), evidence);
      const low = best === a ? Math.max(free.low ?? 0, 0) : free.low;
      const high = best === b ? Math.min(free.high ?? 0, 0) : free.high;
      const toldApart = best === a || best === b || (low ?? -1) > 0 || (high ?? 1) < 0;
      const difference = fit.linked(i, j) ? fit.effects[i]! - fit.effects[j]! : null;
      return { a, b, difference, low, high, toldApart };
    }),
  );
}

function limitsOf(contrast: Contrast | null, evidence: number): Limits {
  if (contrast === null) return { low: null, high: null };
  const { difference, standardError, student } = contrast;
  const halfWidth = evidentT(evidence, student) * standardError;
  if (halfWidth === Infinity) return { low: null, high: null };
  return { low: difference - halfWidth, high: difference + halfWidth };
}

/** A level less the best of the others: the least of its differences, low and high apart. */
export function overOthers(level: LevelKey, pairs: readonly PairVerdict[]): Limits {
  const own = pairs.flatMap(({ a, b, low, high }) => {
    if (a === level) return [{ low, high }];
    return b === level ? [{ low: negative(high), high: negative(low) }] : [];
  });
  if (own.length === 0) return { low: null, high: null };
  const highs = own.flatMap(({ high }) => (high === null ? [] : [high]));
  return {
    low: own.some(({ low }) => low === null) ? null : Math.min(...own.map(({ low }) => low ?? 0)),
    high: highs.length > 0 ? Math.min(...highs) : null,
  };
}

function negative(limit: number | null): number | null {
  return limit === null ? null : -limit;
}
