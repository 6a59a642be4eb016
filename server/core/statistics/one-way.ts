/**
 * One-way analysis of variance: do the means of groups with a common scatter differ by more than
 * that scatter (NIST/SEMATECH e-Handbook, 7.4.3.3)?
 */
import { fUpperTail } from './f.ts';
import type { Moments } from './groups.ts';
import { meanOf } from '../metrology/type-a/series.ts';

export interface OneWay {
  readonly f: number;
  readonly dfBetween: number;
  readonly dfWithin: number;
  readonly p: number;
  readonly betweenSquares: number;
  readonly withinSquares: number;
}

/** Null without scatter within the groups, or with fewer than two groups. */
export function oneWay(groups: readonly Moments[]): OneWay | null {
  const count = groups.reduce((sum, group) => sum + group.count, 0);
  const [dfBetween, dfWithin] = [groups.length - 1, count - groups.length];
  const withinSquares = groups.reduce((sum, { squares }) => sum + squares, 0);
  if (dfBetween < 1 || dfWithin < 1 || !(withinSquares > 0)) return null;
  const betweenSquares = squaresBetween(groups, count);
  const f = betweenSquares / dfBetween / (withinSquares / dfWithin);
  if (!Number.isFinite(f)) return null;
  const p = fUpperTail(f, { df1: dfBetween, df2: dfWithin });
  return { f, dfBetween, dfWithin, p, betweenSquares, withinSquares };
}

/** Σn(x̄ − x̿)², about a first guess of x̿, so that large means don't cancel. */
function squaresBetween(groups: readonly Moments[], count: number): number {
  const guess = meanOf(groups.map(({ mean }) => mean));
  const shift = groups.reduce((sum, group) => sum + group.count * (group.mean - guess), 0) / count;
  return groups.reduce((sum, group) => sum + group.count * (group.mean - guess - shift) ** 2, 0);
}
