/** The benchmark's results, put together for people and for programs. */
import { addScore, emptyScore, figuresOf, type Score } from './score.ts';
import { apartTable, figureTable, fixed, markdown, type Row } from './table.ts';

/** What one method made of one recording. */
export interface Cell {
  readonly method: string;
  readonly kind: string;
  readonly rate: string;
  readonly score: Score;
}

type Grouping = (cell: Cell) => string;
const BY_METHOD: Grouping = (cell) => cell.method;
const BY_KIND: Grouping = (cell) => cell.kind;
const BY_RATE: Grouping = (cell) => cell.rate;

/** Markdown tables; the first method is the one that is shown by kind and by rate. */
export function tables(cells: readonly Cell[]): string {
  const all = rowsBy(cells, BY_METHOD);
  const first = all[0]?.label ?? '';
  const own = cells.filter((cell) => cell.method === first);
  return [
    '## All kinds and rates',
    figureTable('method', all),
    `## ${first} by kind`,
    figureTable('kind', rowsBy(own, BY_KIND)),
    `## ${first} by rate`,
    figureTable('rate', rowsBy(own, BY_RATE)),
    '## F1 by kind',
    f1Table(cells, BY_KIND),
    '## F1 by rate',
    f1Table(cells, BY_RATE),
    '## Scored apart',
    apartTable(all),
  ].join('\n\n');
}

/** Every figure, for each method overall, by kind and by rate. */
export function figuresByMethod(cells: readonly Cell[]): unknown {
  return [...groupsOf(cells, BY_METHOD)].map(([method, members]) => ({
    method,
    overall: figuresOf(totalOf(members)),
    kinds: rowsBy(members, BY_KIND),
    rates: rowsBy(members, BY_RATE),
  }));
}

/** What was run. */
export function summary(cells: readonly Cell[]): string {
  const { trueCount, hours, sampleCount } = totalOf(
    [...groupsOf(cells, BY_METHOD).values()][0] ?? [],
  );
  return (
    `${trueCount} true plateaus of 6 s and more in ${hours.toFixed(1)} h ` +
    `(${(sampleCount / 1e6).toFixed(1)} million samples)`
  );
}

function totalOf(cells: readonly Cell[]): Score {
  const total = emptyScore();
  for (const { score } of cells) addScore(total, score);
  return total;
}

/** In order of appearance. */
function groupsOf(cells: readonly Cell[], group: Grouping): Map<string, Cell[]> {
  const groups = new Map<string, Cell[]>();
  for (const cell of cells) {
    const members = groups.get(group(cell));
    if (members) members.push(cell);
    else groups.set(group(cell), [cell]);
  }
  return groups;
}

function rowsBy(cells: readonly Cell[], group: Grouping): Row[] {
  return [...groupsOf(cells, group)].map(([label, members]) => ({
    label,
    figures: figuresOf(totalOf(members)),
  }));
}

/** F1 of every method, one row for each group. */
function f1Table(cells: readonly Cell[], group: Grouping): string {
  const rows = [...groupsOf(cells, group)].map(([label, members]) => [
    label,
    ...rowsBy(members, BY_METHOD).map((row) => fixed(row.figures.f1, 2)),
  ]);
  return markdown(['', ...groupsOf(cells, BY_METHOD).keys()], rows);
}
