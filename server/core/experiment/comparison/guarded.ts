/**
 * Differences with limits that also hold where levels scatter unlike: setting a level anew scatters
 * its power by a share of it, so that the common scatter is too small for the strongest levels, of
 * which the best is looked for. Where two levels scatter more than the common one, theirs counts
 * (as in ../choosing/contrast.ts); that can only widen limits.
 */
import { fitBlocks } from '../choosing/block-model.ts';
import type { Classified } from '../../statistics/cells.ts';
import type { Moments, Pair } from '../../statistics/groups.ts';

/** What trials of a level lie off what was fitted, and the freedom that they have. */
interface OwnScatter {
  readonly squares: number;
  readonly freedom: number;
}

/** @param scattering those of the groups that the common scatter was taken from */
export function guardedGroups(
  pairs: readonly Pair[],
  groups: readonly Moments[],
  scattering: readonly Moments[],
): Pair[] {
  const own = ({ squares, count }: Moments): OwnScatter => ({ squares, freedom: count - 1 });
  return guarded(pairs, groups.map(own), varianceOf(scattering.map(own)));
}

/** @param observations `row` is the level, `column` the block */
export function guardedBlocks(
  pairs: readonly Pair[],
  observations: readonly Classified[],
): Pair[] {
  const levels = Math.max(...observations.map(({ row }) => row)) + 1;
  const readings = observations.map(({ row, column, value }) => {
    return { level: row, block: column, y: value };
  });
  const { own, squares, degreesOfFreedom } = fitBlocks(readings, levels);
  return guarded(pairs, own, squares / degreesOfFreedom);
}

function guarded(pairs: readonly Pair[], own: readonly OwnScatter[], common: number): Pair[] {
  return pairs.map((pair) => {
    const { a, b, difference, low, high } = pair;
    const wider = Math.sqrt(Math.max(1, varianceOf([own[a]!, own[b]!]) / common));
    return {
      ...pair,
      low: difference - wider * (difference - low),
      high: difference + wider * (high - difference),
    };
  });
}

/** 0 where nothing is known. */
function varianceOf(scatters: readonly OwnScatter[]): number {
  const freedom = scatters.reduce((sum, one) => sum + one.freedom, 0);
  return freedom > 0 ? scatters.reduce((sum, one) => sum + one.squares, 0) / freedom : 0;
}
