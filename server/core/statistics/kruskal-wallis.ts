/**
 * Kruskal and Wallis's test: do groups differ, by ranks alone (NIST/SEMATECH e-Handbook, 7.4.1)? A
 * second opinion that no single wild reading can sway. H is corrected for ties.
 */
import { chiSquaredUpperTail } from './chi-squared.ts';
import { momentsOf } from './groups.ts';
import { oneWay } from './one-way.ts';
import { ranksOf } from './ranks.ts';

export interface KruskalWallis {
  readonly h: number;
  readonly df: number;
  readonly p: number;
}

/** Null for fewer than two groups, or where ranks tell nothing: all values the same. */
export function kruskalWallis(groups: readonly (readonly number[])[]): KruskalWallis | null {
  const ranks = ranksOf(groups.flat());
  let start = 0;
  const ranked = groups.map(({ length }) => momentsOf(ranks.slice(start, (start += length))));
  const table = oneWay(ranked);
  if (table === null) return null;
  const { betweenSquares, withinSquares, dfBetween, dfWithin } = table;
  // H is the share of the ranks' whole scatter that lies between the groups.
  const share = betweenSquares / (betweenSquares + withinSquares);
  const h = share * (dfBetween + dfWithin);
  return { h, df: dfBetween, p: chiSquaredUpperTail(h, dfBetween) };
}
