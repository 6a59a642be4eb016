/**
 * Observations by the combination of two classifications, as few rows: the mean of each cell with
 * weight √n. With the scatter within cells added, every model that depends on the cells alone has
 * the same coefficients and sums of squares as on the single observations.
 */
import { momentsOf } from './groups.ts';

export interface Classified {
  /** Place among the classes of the first kind. */
  readonly row: number;
  readonly column: number;
  readonly value: number;
}

export interface Cell {
  readonly row: number;
  readonly column: number;
  /** √n */
  readonly weight: number;
  readonly mean: number;
}

export interface Cells {
  readonly cells: readonly Cell[];
  readonly rows: number;
  readonly columns: number;
  /** Σ(x − x̄)² within cells, and its degrees of freedom. */
  readonly withinSquares: number;
  readonly withinFreedom: number;
}

export function cellsOf(observations: readonly Classified[]): Cells {
  const byCell = new Map<string, Classified[]>();
  for (const one of observations) {
    const key = `${one.row} ${one.column}`;
    const cell = byCell.get(key);
    if (cell === undefined) byCell.set(key, [one]);
    else cell.push(one);
  }
  let [withinSquares, withinFreedom, rows, columns] = [0, 0, 0, 0];
  const cells = [...byCell.values()].map((ones) => {
    const { row, column } = ones[0]!;
    const { count, mean, squares } = momentsOf(ones.map(({ value }) => value));
    withinSquares += squares;
    withinFreedom += count - 1;
    rows = Math.max(rows, row + 1);
    columns = Math.max(columns, column + 1);
    return { row, column, weight: Math.sqrt(count), mean };
  });
  return { cells, rows, columns, withinSquares, withinFreedom };
}

/** Whether every two rows are linked: by a column that holds both, or by a chain of such. */
export function areRowsLinked(observations: readonly Classified[]): boolean {
  const rows = new Set(observations.slice(0, 1).map(({ row }) => row));
  for (let before = 0; before < rows.size; ) {
    before = rows.size;
    const held = observations.filter(({ row }) => rows.has(row));
    const met = new Set(held.map(({ column }) => column));
    for (const { row, column } of observations) if (met.has(column)) rows.add(row);
  }
  return observations.every(({ row }) => rows.has(row));
}

/** A column that is 1 where `holds`, weighted. */
export function marked(cells: readonly Cell[], holds: (cell: Cell) => boolean): number[] {
  return cells.map((cell) => (holds(cell) ? cell.weight : 0));
}

/** One column for each class but the first, which the others are compared with. */
export function classColumns(cells: readonly Cell[], kind: 'row' | 'column', count: number) {
  return Array.from({ length: Math.max(0, count - 1) }, (_, i) =>
    marked(cells, (cell) => cell[kind] === i + 1),
  );
}
