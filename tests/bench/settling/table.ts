/** Figures as Markdown tables. */
import type { Figures } from './score.ts';

export interface Row {
  readonly label: string;
  readonly figures: Figures;
}

const COLUMNS: readonly { head: string; cell: (figures: Figures) => string }[] = [
  { head: 'plateaus', cell: (f) => String(f.trueCount) },
  { head: 'precision', cell: (f) => fixed(f.precision, 3) },
  { head: 'recall', cell: (f) => fixed(f.recall, 3) },
  { head: 'F1', cell: (f) => fixed(f.f1, 3) },
  { head: 'IoU ≥ .8', cell: (f) => fixed(f.recallAt80, 2) },
  { head: 'false/h', cell: (f) => fixed(f.falsePerHour, 1) },
  { head: 'fragments/h', cell: (f) => fixed(f.fragmentsPerHour, 1) },
  { head: 'latency s', cell: (f) => fixed(f.latencyMedian_s, 1) },
  { head: '90 % s', cell: (f) => fixed(f.latency90_s, 1) },
  { head: 'bias %', cell: (f) => percent(f.bias) },
  { head: 'error %', cell: (f) => percent(f.errorMedian) },
  { head: 'coverage', cell: (f) => fixed(f.coverage, 3) },
  { head: '× to 95 %', cell: (f) => fixed(f.stretchTo95, 2) },
  { head: 'width %', cell: (f) => percent(f.widthMedian) },
  { head: 'u %', cell: (f) => percent(f.uncertaintyMedian) },
  { head: 'withdrawn', cell: (f) => fixed(f.withdrawn, 3) },
  { head: 'of it outside', cell: (f) => fixed(f.withdrawnOutside, 3) },
  { head: 'µs/sample', cell: (f) => fixed(f.costPerSample_us, 2) },
];

export function figureTable(first: string, rows: readonly Row[]): string {
  return markdown(
    [first, ...COLUMNS.map((column) => column.head)],
    rows.map(({ label, figures }) => [label, ...COLUMNS.map((column) => column.cell(figures))]),
  );
}

/** What is scored apart: the rotor that stands still, and the rotor that never settles. */
export function apartTable(rows: readonly Row[]): string {
  return markdown(
    [
      'method',
      'still in wind',
      'found',
      'found without wind',
      'restless for 35 s',
      'told',
      'told in a plateau',
    ],
    rows.map(({ label, figures: { still, restless } }) => [
      label,
      ...[still.trueCount, still.foundCount, still.falseCount].map(String),
      ...[restless.longCount, restless.toldCount, restless.falseCount].map(String),
    ]),
  );
}

export function markdown(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]) => `| ${cells.join(' | ')} |`;
  return [line(head), line(head.map(() => '---')), ...rows.map(line)].join('\n');
}

export function fixed(value: number, digits: number): string {
  return Number.isFinite(value) ? value.toFixed(digits) : '–';
}

function percent(value: number): string {
  return fixed(100 * value, 2);
}
