/** A rig whose truth is known: what each level gives, and how much setting it anew scatters. */
import type { LevelTrial } from '#core/experiment/choosing/level-trial.ts';
import { chance, normal, type Random } from '#core/virtual-rig/random.ts';

/**
 * How a level's standard deviation follows from its power: a share of it; a constant; or a share
 * that differs from level to level.
 */
export type Scatter =
  | { readonly kind: 'share'; readonly share: number }
  | { readonly kind: 'constant'; readonly shareOfBest: number }
  | { readonly kind: 'unequal'; readonly shares: readonly number[] };

export interface RigTruth {
  /** True power of each level; a level's key is its index. */
  readonly powers: readonly number[];
  readonly scatter: Scatter;
  /** Chance of a trial that scatters six times as much. */
  readonly outliers: number;
  /** What a block's common factor scatters by. */
  readonly drift: number;
}

const OUTLIER_FACTOR = 6;

/** The common factor of a new block: the fan drifts from one to the next. */
export function nextDrift(random: Random, { drift }: RigTruth): number {
  return Math.exp(drift * normal(random));
}

/** A trial at this level in a block with this common factor. */
export function makeTrial(
  random: Random,
  { truth, level, block, factor }: {
    readonly truth: RigTruth;
    readonly level: number;
    readonly block: number;
    readonly factor: number;
  },
): LevelTrial {
  const power = truth.powers[level]!;
  const scale = chance(random, truth.outliers) ? OUTLIER_FACTOR : 1;
  const value = factor * (power + scale * deviationOf(truth, level) * normal(random));
  // A strong outlier could turn a rotor backwards, which a lamp doesn't show.
  return { level, block, value: Math.max(value, 0.01 * power) };
}

function deviationOf({ powers, scatter }: RigTruth, level: number): number {
  switch (scatter.kind) {
    case 'share':
      return scatter.share * powers[level]!;
    case 'constant':
      return scatter.shareOfBest * Math.max(...powers);
    case 'unequal':
      return scatter.shares[level]! * powers[level]!;
  }
}

/** The levels that are truly best. */
export function bestOf({ powers }: RigTruth): number[] {
  const most = Math.max(...powers);
  return powers.flatMap((power, level) => (power === most ? [level] : []));
}
