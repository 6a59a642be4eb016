/**
 * Which level is best, and how sure: an answer that may be looked at after every trial.
 *
 * Over the whole experiment, however often one looks, whenever one stops and however many levels
 * tie: in at most 5 of 100 experiments a level that is truly best is ever left out of `best` and
 * `tiedWith`. So a single best is named wrongly, or a true tie broken, in at most 5 of 100, also
 * when the next runs follow the tool's advice. Procedure, sources, what was proved and what was
 * measured: docs/choosing.md.
 */
import { levelsOf, type LevelKey, type LevelTrial } from './level-trial.ts';
import { overOthers, pairVerdicts, type Limits, type PairVerdict } from './pair-verdicts.ts';
import { standingOf, type Standing } from './standing.ts';

export interface Choice {
  /** The level that is best, once it can be told; null before, and where levels tie. */
  readonly best: LevelKey | null;
  /** The level that stands highest so far; null where nothing turned. */
  readonly leader: LevelKey | null;
  /** The other levels that may be best as well; empty once `best` is known. */
  readonly tiedWith: readonly LevelKey[];
  /** What estimates and differences are: logarithms, or in the response's unit. */
  readonly scale: 'ratio' | 'difference';
  /** Scatter of setting a level anew, on that scale; null while nothing is known of it. */
  readonly scatter: { readonly deviation: number; readonly degreesOfFreedom: number } | null;
  readonly levels: readonly LevelVerdict[];
  /** Every two levels that turned. */
  readonly pairs: readonly PairVerdict[];
}

export interface LevelVerdict {
  readonly level: LevelKey;
  readonly count: number;
  /** What drifts between blocks is taken out; null where it never turned. */
  readonly estimate: number | null;
  readonly canBeBest: boolean;
  /** Whether it has trials in which it did not turn. Such a level is never named the best. */
  readonly zeros: 'never' | 'sometimes' | 'always';
  /** This level less the best of the others; null where it never turned. */
  readonly overOthers: Limits | null;
}

/** @param trials of one factor, in the order in which they were made; struck ones left out */
export function chooseBest(trials: readonly LevelTrial[]): Choice {
  const standing = standingOf(trials);
  const { best, leader, possible, estimates, comparable } = standing;
  const { levels, zeros, scale } = comparable;
  const pairs = pairVerdicts(standing);
  return {
    best,
    leader,
    tiedWith: possible.filter((level) => level !== leader),
    scale,
    scatter: scatterOf(standing),
    levels: levelsOf(trials).map((level) => ({
      level,
      count: trials.filter((trial) => trial.level === level).length,
      estimate: estimates[levels.indexOf(level)] ?? null,
      canBeBest: possible.includes(level),
      zeros: zeros.get(level) ?? 'never',
      overOthers: levels.includes(level) ? overOthers(level, pairs) : null,
    })),
    pairs,
  };
}

function scatterOf({ fit: { squares, degreesOfFreedom } }: Standing): Choice['scatter'] {
  if (degreesOfFreedom < 1) return null;
  return { deviation: Math.sqrt(squares / degreesOfFreedom), degreesOfFreedom };
}
