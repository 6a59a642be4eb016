/** Welch's analysis of variance for unequal scatter (B. L. Welch, Biometrika 38 (1951) 330). */
import { fUpperTail } from './f.ts';
import { varianceOf, type Moments } from './groups.ts';

export interface Welch {
  readonly f: number;
  readonly df1: number;
  readonly df2: number;
  readonly p: number;
}

/** Null where some group shows no scatter: fewer than two values, or all of them the same. */
export function welch(groups: readonly Moments[]): Welch | null {
  const k = groups.length;
  if (k < 2 || groups.some(({ count, squares }) => count < 2 || !(squares > 0))) return null;
  const precisions = groups.map((group) => group.count / varianceOf(group));
  // Shares, so that no unit runs out of range.
  const all = precisions.reduce((sum, precision) => sum + precision, 0);
  const guess = groups[0]!.mean;
  const shift = groups.reduce((sum, { mean }, i) => sum + (precisions[i]! / all) * (mean - guess), 0);
  const between = groups.reduce(
    (sum, { mean }, i) => sum + precisions[i]! * (mean - guess - shift) ** 2,
    0,
  );
  const doubt = groups.reduce(
    (sum, { count }, i) => sum + (1 - precisions[i]! / all) ** 2 / (count - 1),
    0,
  );
  const f = between / (k - 1) / (1 + ((2 * (k - 2)) / (k ** 2 - 1)) * doubt);
  const df2 = (k ** 2 - 1) / (3 * doubt);
  if (!Number.isFinite(f) || !(df2 > 0)) return null;
  return { f, df1: k - 1, df2, p: fUpperTail(f, { df1: k - 1, df2 }) };
}
