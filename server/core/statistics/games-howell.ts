/**
 * All differences of groups with scatters of their own at once (P. A. Games, J. F. Howell, J. Educ.
 * Stat. 1 (1976) 113, from memory): the studentized range with Welch's degrees of freedom for each
 * pair.
 */
import { ALPHA, pairsOf, varianceOf, type Moments, type Pair } from './groups.ts';
import { studentizedRange } from './studentized-range.ts';

/** Null where some group shows no scatter: fewer than two values, or all of them the same. */
export function gamesHowell(groups: readonly Moments[]): readonly Pair[] | null {
  if (groups.length < 2) return null;
  if (groups.some(({ count, squares }) => count < 2 || !(squares > 0))) return null;
  const range = studentizedRange(groups.length);
  return pairsOf(groups.length).map(({ a, b }) => {
    const [one, other] = [groups[a]!, groups[b]!];
    const [v, w] = [varianceOf(one) / one.count, varianceOf(other) / other.count];
    const share = v / (v + w);
    const freedom = 1 / (share ** 2 / (one.count - 1) + (1 - share) ** 2 / (other.count - 1));
    const unit = Math.sqrt((v + w) / 2);
    const difference = one.mean - other.mean;
    const half = range.upperQuantile(ALPHA, freedom) * unit;
    const p = range.upperTail(Math.abs(difference) / unit, freedom);
    return { a, b, difference, low: difference - half, high: difference + half, p };
  });
}
