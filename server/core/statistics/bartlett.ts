/** Bartlett's test whether groups scatter alike (NIST/SEMATECH e-Handbook, 1.3.5.7). */
import { chiSquaredUpperTail } from './chi-squared.ts';
import { varianceOf, type Moments } from './groups.ts';

export interface Bartlett {
  readonly statistic: number;
  readonly df: number;
  readonly p: number;
}

/** Null where some group shows no scatter: fewer than two values, or all of them the same. */
export function bartlett(groups: readonly Moments[]): Bartlett | null {
  const df = groups.length - 1;
  if (df < 1 || groups.some(({ count, squares }) => count < 2 || !(squares > 0))) return null;
  const freedom = groups.reduce((sum, { count }) => sum + count - 1, 0);
  const pooled = groups.reduce((sum, { squares }) => sum + squares, 0) / freedom;
  const spread = groups.reduce(
    (sum, group) => sum - (group.count - 1) * Math.log(varianceOf(group) / pooled),
    0,
  );
  const inverse = groups.reduce((sum, { count }) => sum + 1 / (count - 1), 0);
  const statistic = spread / (1 + (inverse - 1 / freedom) / (3 * df));
  return { statistic, df, p: chiSquaredUpperTail(statistic, df) };
}
