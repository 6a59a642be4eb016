/** Differences between levels, each with the scatter that it is judged by. */
import { fitBlocks, type BlockFit, type BlockReading } from './block-model.ts';
import type { Comparable } from './comparable.ts';
import type { ContrastStudent } from './difference-evidence.ts';

export interface Contrast {
  readonly difference: number;
  readonly standardError: number;
  readonly student: ContrastStudent;
}

/** Indices of levels → their contrast; null where blocks don't link them or no scatter is known. */
export type Contrasts = (a: number, b: number) => Contrast | null;

/**
 * On the scale of ratios, levels below this share of a pair say nothing of how the pair scatters:
 * there the smallest steps of the meter rule, not the setting of the blades.
 */
const FAR_BELOW = 1 / 10;

/**
 * @param whole the fit of all levels
 * @param estimates of all levels, on the scale of the comparison
 */
export function contrastsOf(
  { scale, levels, readings, leastVariance }: Comparable,
  { whole, estimates }: { readonly whole: BlockFit; readonly estimates: readonly number[] },
): Contrasts {
  const all = levels.map((_, level) => level);
  const fits = new Map([[all.join(), whole]]);
  const fitTo = (near: readonly number[]): BlockFit => {
    const key = near.join();
    const fit = fits.get(key) ?? fitOf(readings, near);
    fits.set(key, fit);
    return fit;
  };
  return (a, b) => {
    const lower = Math.min(estimates[a]!, estimates[b]!);
    const floor = scale === 'ratio' ? lower + Math.log(FAR_BELOW) : -Infinity;
    const near = all.filter((level) => estimates[level]! >= floor);
    return contrastOf(fitTo(near), { a: near.indexOf(a), b: near.indexOf(b), leastVariance });
  };
}

/** The fit of these levels alone. */
function fitOf(readings: readonly BlockReading[], levels: readonly number[]): BlockFit {
  const used = readings.filter(({ level }) => levels.includes(level));
  const blocks = [...new Set(used.map(({ block }) => block))];
  const renumbered = used.map(({ level, block, y }) => ({
    level: levels.indexOf(level),
    block: blocks.indexOf(block),
    y,
  }));
  return fitBlocks(renumbered, levels.length);
}

interface Pair {
  readonly a: number;
  readonly b: number;
  /** The scatter's variance is at least this. */
  readonly leastVariance: number;
}

/**
 * The scatter is pooled over levels, for two trials of a level tell next to nothing of it; where
 * these two scatter more than the rest, theirs counts. Evidence falls with the scatter, so that the
 * greater of the two can only make an answer later.
 */
function contrastOf(fit: BlockFit, { a, b, leastVariance }: Pair): Contrast | null {
  const { degreesOfFreedom, squares } = fit;
  if (degreesOfFreedom < 1 || !fit.linked(a, b)) return null;
  const [first, second] = [fit.own[a]!, fit.own[b]!];
  const freedom = first.freedom + second.freedom;
  const pair = freedom > 0 ? (first.squares + second.squares) / freedom : 0;
  const scatter = Math.sqrt(Math.max(squares / degreesOfFreedom, pair, leastVariance));
  const variance = fit.contrastVariance(a, b);
  const difference = fit.effects[a]! - fit.effects[b]!;
  const standardError = scatter * Math.sqrt(variance);
  return {
    difference,
    standardError,
    student: { t: difference / standardError, variance, degreesOfFreedom },
  };
}
