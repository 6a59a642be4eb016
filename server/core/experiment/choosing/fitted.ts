/** Trials as the numbers that levels are compared by: their effects, and every difference. */
import { fitBlocks, type BlockFit, type BlockReading } from './block-model.ts';
import { comparableOf, type Comparable } from './comparable.ts';
import { contrastsOf, type Contrasts } from './contrast.ts';
import type { LevelTrial } from './level-trial.ts';

export interface Fitted {
  readonly comparable: Comparable;
  /** All levels that turned. */
  readonly fit: BlockFit;
  /** Of the levels that turned, on the scale of the comparison. */
  readonly estimates: readonly number[];
  readonly contrasts: Contrasts;
}

export function fittedTo(trials: readonly LevelTrial[]): Fitted {
  const comparable = comparableOf(trials);
  const { levels, readings } = comparable;
  const fit = fitBlocks(readings, levels.length);
  const estimates = estimatesOf(fit, readings, levels.length);
  const contrasts = contrastsOf(comparable, { whole: fit, estimates });
  return { comparable, fit, estimates, contrasts };
}

/** Levels' effects as values: set at the readings' mean, in each component of linked levels. */
function estimatesOf(fit: BlockFit, readings: readonly BlockReading[], k: number): number[] {
  return Array.from({ length: k }, (_, a) => {
    const near = readings.filter(({ level }) => fit.linked(level, a));
    const rests = near.map(({ level, y }) => y - fit.effects[level]!);
    return fit.effects[a]! + rests.reduce((sum, rest) => sum + rest, 0) / rests.length;
  });
}
