/** `npm run bench:settling`: the settling detector beside published methods, on many recordings. */
import { performance } from 'node:perf_hooks';
import { BASELINES } from './baselines/methods.ts';
import { detectorMethod } from './detector-method.ts';
import { exactMethod } from './exact-method.ts';
import type { Method } from './method.ts';
import { parseOptions, recordingsOf, USAGE, type Options } from './options.ts';
import { addScore, emptyScore, figuresOf, scoreRecording, type Score } from './score.ts';
import type { Recording } from './recording.ts';
import { figureTable, fixed, markdown, stillTable, type Row } from './table.ts';

interface Cell {
  readonly method: string;
  readonly kind: string;
  readonly rate_Hz: number;
  readonly score: Score;
}

function run(options: Options): Cell[] {
  const methods = [detectorMethod, exactMethod, ...(options.baselines ? BASELINES : [])];
  const cells: Cell[] = [];
  for (const recording of recordingsOf(options)) {
    const { kind, rate_Hz } = recording;
    for (const method of methods) {
      cells.push({ method: method.name, kind, rate_Hz, score: tryMethod(method, recording) });
    }
  }
  return cells;
}

function tryMethod(method: Method, recording: Recording): Score {
  const started_ms = performance.now();
  const found = method.find(recording);
  return scoreRecording(recording, found, (performance.now() - started_ms) / 1000);
}

function rowsBy(cells: readonly Cell[], label: (cell: Cell) => string): Row[] {
  const totals = new Map<string, Score>();
  for (const cell of cells) {
    const key = label(cell);
    const total = totals.get(key) ?? emptyScore();
    addScore(total, cell.score);
    totals.set(key, total);
  }
  return [...totals].map(([key, score]) => ({ label: key, figures: figuresOf(score) }));
}

function report(cells: readonly Cell[]): string {
  const ours = cells.filter((cell) => cell.method === detectorMethod.name);
  const all = rowsBy(cells, (cell) => cell.method);
  return [
    '## All kinds and rates',
    figureTable('method', all),
    `## ${detectorMethod.name} by kind`,
    figureTable('kind', rowsBy(ours, (cell) => cell.kind)),
    `## ${detectorMethod.name} by rate`,
    figureTable('rate', rowsBy(ours, (cell) => `${cell.rate_Hz} Hz`)),
    '## F1 by kind and method',
    f1Table(cells, (cell) => cell.kind),
    '## F1 by rate and method',
    f1Table(cells, (cell) => `${cell.rate_Hz} Hz`),
    '## Rotor standing still',
    stillTable(all),
  ].join('\n\n');
}

/** F1 of every method, one row for each group. */
function f1Table(cells: readonly Cell[], group: (cell: Cell) => string): string {
  const methods = [...new Set(cells.map((cell) => cell.method))];
  const rows = rowsBy(cells, (cell) => `${group(cell)}\n${cell.method}`);
  const f1 = new Map(rows.map(({ label, figures }) => [label, fixed(figures.f1, 2)]));
  return markdown(
    ['', ...methods],
    [...new Set(cells.map(group))].map((name) => [
      name,
      ...methods.map((method) => f1.get(`${name}\n${method}`) ?? '–'),
    ]),
  );
}

function main(): number {
  let options: Options;
  try {
    options = parseOptions(process.argv.slice(2));
  } catch (error) {
    console.error(`${error instanceof Error ? error.message : String(error)}\n\n${USAGE}`);
    return 2;
  }
  const cells = run(options);
  console.log(options.json ? JSON.stringify(cells) : report(cells));
  return 0;
}

process.exitCode = main();
