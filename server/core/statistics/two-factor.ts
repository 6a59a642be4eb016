/**
 * Two factors and their interaction (NIST/SEMATECH e-Handbook, 7.4.3.8). For unequal counts each
 * factor is adjusted for the other, and the interaction for both ("type II" sums of squares, as in
 * R's comparison of nested models); the error is the scatter within cells. A cell may be empty: the
 * interaction then has fewer degrees of freedom.
 */
import { cellsOf, classColumns, marked, type Classified } from './cells.ts';
import { fUpperTail } from './f.ts';
import { leastSquares } from './least-squares.ts';

export interface Effect {
  readonly squares: number;
  readonly df: number;
  readonly f: number;
  readonly p: number;
}

export interface TwoFactor {
  readonly rows: Effect;
  readonly columns: Effect;
  /** Null where no cells are left to show it. */
  readonly interaction: Effect | null;
  readonly dfWithin: number;
  readonly withinSquares: number;
}

/** Null without scatter within cells, or with fewer than two classes of a kind. */
export function twoFactor(observations: readonly Classified[]): TwoFactor | null {
  const { cells, rows, columns, withinSquares, withinFreedom: dfWithin } = cellsOf(observations);
  if (rows < 2 || columns < 2 || dfWithin < 1 || !(withinSquares > 0)) return null;
  const y = cells.map(({ weight, mean }) => weight * mean);
  const ones = [marked(cells, () => true)];
  const rowColumns = classColumns(cells, 'row', rows);
  const columnColumns = classColumns(cells, 'column', columns);
  const both = leastSquares([...ones, ...rowColumns, ...columnColumns], y);
  const effect = (squares: number, df: number): Effect | null => {
    if (df < 1) return null;
    const f = Math.max(0, squares) / df / (withinSquares / dfWithin);
    return { squares, df, f, p: fUpperTail(f, { df1: df, df2: dfWithin }) };
  };
  const adjusted = (others: readonly number[][]): Effect | null => {
    const without = leastSquares([...ones, ...others], y);
    return effect(without.residualSquares - both.residualSquares, both.rank - without.rank);
  };
  const [ofRows, ofColumns] = [adjusted(columnColumns), adjusted(rowColumns)];
  if (ofRows === null || ofColumns === null) return null;
  const interaction = effect(both.residualSquares, both.residualFreedom);
  return { rows: ofRows, columns: ofColumns, interaction, dfWithin, withinSquares };
}
