/**
 * All differences of groups with a common scatter at once: Tukey's method, in Kramer's form for
 * unequal counts (NIST/SEMATECH e-Handbook, 7.4.7.1).
 */
import { ALPHA, pairsOf, type Moments, type Pair } from './groups.ts';
import { studentizedRange } from './studentized-range.ts';

export interface Estimates {
  readonly groups: number;
  /** mean(a) − mean(b) */
  difference(a: number, b: number): number;
  /** Its standard error. */
  error(a: number, b: number): number;
  readonly degreesOfFreedom: number;
}

/**
 * Null without scatter within the groups.
 * @param scattering those of the groups that the common scatter is taken from
 */
export function tukey(groups: readonly Moments[], scattering = groups): readonly Pair[] | null {
  const freedom = scattering.reduce((sum, { count }) => sum + count - 1, 0);
  const squares = scattering.reduce((sum, group) => sum + group.squares, 0);
  if (groups.length < 2 || freedom < 1 || !(squares > 0)) return null;
  const share = (i: number): number => 1 / groups[i]!.count;
  return rangeOfPairs({
    groups: groups.length,
    difference: (a, b) => groups[a]!.mean - groups[b]!.mean,
    error: (a, b) => Math.sqrt((squares / freedom) * (share(a) + share(b))),
    degreesOfFreedom: freedom,
  });
}

/** Every pair against the studentized range, whose unit is an error over √2. */
export function rangeOfPairs(of: Estimates): readonly Pair[] {
  const range = studentizedRange(of.groups);
  const widest = range.upperQuantile(ALPHA, of.degreesOfFreedom);
  return pairsOf(of.groups).map(({ a, b }) => {
    const difference = of.difference(a, b);
    const unit = of.error(a, b) / Math.SQRT2;
    const half = widest * unit;
    const p = range.upperTail(Math.abs(difference) / unit, of.degreesOfFreedom);
    return { a, b, difference, low: difference - half, high: difference + half, p };
  });
}
