/** A table of trials, one a row: its columns are named by whoever compares them. */
import { LARGEST_RESPONSE, type ComparedTrial } from '#core/experiment/comparison/comparison-schema.ts';
import { separatorIn, splitRow, type CsvRow, type CsvSeparator } from '#core/csv-rows.ts';
import { decimalSignOf, isMissing, readDecimal, type DecimalSign } from '#core/decimal-sign.ts';
import { readCsvRows } from '../sources/csv.ts';
import { InputError } from './exit-errors.ts';

/** Below it, squares would leave the range of a double. */
const SMALLEST_RESPONSE = 1 / LARGEST_RESPONSE;
/** More are no levels of a factor: another column was meant. */
const MOST_LEVELS = 100;
/** Rows that are left out are named one by one on stderr, before only their count is given. */
const ROWS_NAMED = 10;
/** What stands in the column of the response where that was the outcome. */
export const DID_NOT_TURN = 'did not turn';

/** The names of the columns; what the table need not have may be left out. */
export interface Columns {
  readonly factor: string;
  readonly response: string;
  readonly block?: string | undefined;
  readonly second?: string | undefined;
  readonly order?: string | undefined;
  readonly uncertainty?: string | undefined;
}

/** A row's cells of the columns that are asked for; null where a column is not. */
interface Cells {
  readonly line: number;
  readonly factor: string;
  readonly response: string;
  readonly block: string | null;
  readonly second: string | null;
  readonly order: string | null;
  readonly uncertainty: string | null;
  /** The table says itself that nothing turned. */
  readonly isStill: boolean;
}

/** Trials in the order of the rows; rows that count for nothing are named on stderr. */
export async function readTrials(file: string, columns: Columns): Promise<ComparedTrial[]> {
  const { cells, separator } = await readCells(file, columns);
  const sign = decimalSignOf(separator, cells.flatMap(numbersOf));
  const levelOf = levelsIn(cells.map(({ factor }) => factor), sign);
  const secondOf = levelsIn(cells.flatMap(({ second }) => second ?? []), sign);
  const responses = cells.map((row) => readResponse(file, row, columns.response, sign));
  const trials = cells.flatMap((row, i): ComparedTrial[] => {
    const response = responses[i] ?? null;
    if (response === null) return [];
    return [
      {
        ...response,
        level: levelOf(row.factor),
        block: row.block,
        order: readOrder(file, row, columns.order ?? '', sign),
        second: row.second === null ? null : secondOf(row.second),
        standardUncertainty: readUncertainty(file, row, columns.uncertainty ?? '', sign),
      },
    ];
  });
  const missing = cells.filter((_, i) => responses[i] === null);
  nameRows(file, missing.map(({ line }) => ({ line, why: `${columns.response} is missing` })));
  if (trials.length === 0) {
    throw new InputError('no-trials', `${file} holds no row with a ${columns.response}. Fill the column in.`);
  }
  refuseTooMany(file, columns, trials);
  return trials;
}

function numbersOf({ factor, response, second, order, uncertainty }: Cells): string[] {
  return [factor, response, second, order, uncertainty].filter((text) => text !== null);
}

/** Numbers where all of a factor's levels are, else names. */
function levelsIn(
  texts: readonly string[],
  sign: DecimalSign,
): (text: string) => ComparedTrial['level'] {
  const isNumeric = texts.every((text) => readDecimal(text, sign) !== null);
  // Adding 0 makes no zero negative.
  return (text) => (isNumeric ? (readDecimal(text, sign) ?? 0) + 0 : text);
}

function refuseTooMany(file: string, columns: Columns, trials: readonly ComparedTrial[]): void {
  for (const [name, levels] of [
    [columns.factor, trials.map(({ level }) => level)],
    [columns.second ?? '', trials.map(({ second }) => second)],
  ] as const) {
    if (new Set(levels).size <= MOST_LEVELS) continue;
    throw new InputError(
      'too-many-levels',
      `${name} has more than ${MOST_LEVELS} different values in ${file}. Name the column with the levels that were set.`,
    );
  }
}

interface Table {
  readonly separator: CsvSeparator;
  readonly places: Places;
  /** Columns, those that are not read included. */
  readonly width: number;
}

async function readCells(
  file: string,
  columns: Columns,
): Promise<{ cells: Cells[]; separator: CsvSeparator }> {
  let table: Table | null = null;
  const cells: Cells[] = [];
  const leftOut: LeftOut[] = [];
  for await (const rows of readCsvRows(file)) {
    for (const row of rows) {
      if (table === null) {
        const separator = separatorIn(row.text);
        const names = fieldsOf(row, separator);
        const places = placesOf(file, row.line, names, columns);
        table = { separator, places, width: names.length };
        continue;
      }
      const fields = fieldsOf(row, table.separator);
      if (fields.every((field) => field === '')) continue;
      const why = whyNotCounted(fields, table);
      if (why === null) cells.push(cellsOf(file, { line: row.line, fields }, columns, table));
      else leftOut.push({ line: row.line, why });
    }
  }
  nameRows(file, leftOut);
  if (table === null) {
    throw new InputError('csv-empty', `${file} is empty. Its first row names the columns, each further row is a trial.`);
  }
  return { cells, separator: table.separator };
}

/** Names and levels go to a terminal: line ends and other control characters are as a space. */
function fieldsOf({ text }: CsvRow, separator: CsvSeparator): string[] {
  const fields = splitRow(text, separator) ?? [];
  return fields.map((field) => field.replace(/\p{Cc}+/gu, ' ').trim());
}

interface Places {
  /** Null where no such column is asked for. */
  readonly asked: Readonly<Record<keyof Columns, number | null>>;
  /** Columns of a table that was exported here; −1 where there is none. */
  readonly own: Readonly<Record<(typeof OWN)[number], number>>;
}

/** What an exported table says of its trials (docs/export.md). */
const OWN = ['run', 'struck', 'recorded', 'rotor_still'] as const;

/** Trials that are in the record and count for nothing; null: it counts. */
function whyNotCounted(fields: readonly string[], { places }: Table): string | null {
  const { own, asked } = places;
  if (fields[own.struck] === 'true') return 'it is struck';
  if (fields[own.recorded] === 'false') return 'it was cut short';
  const isStray = own.run >= 0 && fields[own.run] === '' && fields[asked.factor ?? -1] === '';
  return isStray ? 'it belongs to no run' : null;
}

function placesOf(file: string, line: number, names: readonly string[], columns: Columns): Places {
  const placeOfColumn = (name: string): number => {
    const place = names.indexOf(name);
    if (place < 0) {
      const known = names.map((known) => `“${known}”`).join(', ');
      throw new InputError('column-unknown', `${file} line ${line}: there is no column “${name}”. There are ${known}.`);
    }
    if (names.includes(name, place + 1)) {
      throw new InputError('column-unknown', `${file} line ${line}: two columns are called “${name}”. Rename one.`);
    }
    return place;
  };
  const askedFor = (name: string | undefined): number | null => {
    return name === undefined ? null : placeOfColumn(name);
  };
  return {
    asked: {
      factor: placeOfColumn(columns.factor),
      response: placeOfColumn(columns.response),
      block: askedFor(columns.block),
      second: askedFor(columns.second),
      order: askedFor(columns.order),
      uncertainty: askedFor(columns.uncertainty),
    },
    own: {
      run: names.indexOf('run'),
      struck: names.indexOf('struck'),
      recorded: names.indexOf('recorded'),
      rotor_still: names.indexOf('rotor_still'),
    },
  };
}

function cellsOf(
  file: string,
  { line, fields }: { readonly line: number; readonly fields: readonly string[] },
  columns: Columns,
  { places, width }: Table,
): Cells {
  if (fields.length !== width) {
    const count = fields.length === 1 ? '1 field' : `${fields.length} fields`;
    throw badRow(file, line, `it has ${count}, but there are ${width} columns`);
  }
  const { asked } = places;
  const cellOf = (role: keyof Columns): string | null => {
    const place = asked[role];
    return place === null ? null : (fields[place] ?? '');
  };
  const [factor, response] = [cellOf('factor') ?? '', cellOf('response') ?? ''];
  const [block, second] = [cellOf('block'), cellOf('second')];
  for (const [name, cell] of [
    [columns.factor, factor],
    [columns.block, block],
    [columns.second, second],
  ] as const) {
    if (cell === '') throw badRow(file, line, `${name ?? ''} is empty`);
  }
  const isStill = fields[places.own.rotor_still] === 'true';
  const [order, uncertainty] = [cellOf('order'), cellOf('uncertainty')];
  return { line, factor, response, block, second, order, uncertainty, isStill };
}

function badRow(file: string, line: number, what: string): InputError {
  return new InputError('bad-row', `${file} line ${line}: ${what}. Put it right, or take the row out.`);
}

/** Null where the response is missing, which is never 0. */
function readResponse(
  file: string,
  { line, response, isStill }: Cells,
  column: string,
  sign: DecimalSign,
): Pick<ComparedTrial, 'response' | 'didNotTurn'> | null {
  if (isMissing(response)) return null;
  if (isStill || response.toLowerCase() === DID_NOT_TURN) return { response: 0, didNotTurn: true };
  const value = readNumber(file, line, { column, text: response }, sign);
  if (Math.abs(value) > LARGEST_RESPONSE) throw badRow(file, line, `${column} is too large to be true`);
  if (value !== 0 && Math.abs(value) < SMALLEST_RESPONSE) {
    throw badRow(file, line, `${column} is too small to be true`);
  }
  return { response: value, didNotTurn: false };
}

interface Named {
  readonly column: string;
  readonly text: string;
}

function readNumber(
  file: string,
  line: number,
  { column, text }: Named,
  sign: DecimalSign,
): number {
  const value = readDecimal(text, sign);
  if (value !== null) return value;
  const withPoint = /^[-+−]?\d*,\d+$/.test(text) ? ' (write a decimal point)' : '';
  const other = sign === ',' ? ' (numbers of this table have a decimal comma)' : withPoint;
  throw badRow(file, line, `${column} is “${text}”, which is not a number${other}`);
}

/** A trial's place in time: without all of them nothing can be said of a drift. */
function readOrder(
  file: string,
  { line, order }: Cells,
  column: string,
  sign: DecimalSign,
): number | null {
  if (order === null) return null;
  if (isMissing(order)) throw badRow(file, line, `${column} is empty`);
  return readNumber(file, line, { column, text: order }, sign);
}

/** Null where it is not known, which 0 says too. */
function readUncertainty(
  file: string,
  { line, uncertainty }: Cells,
  column: string,
  sign: DecimalSign,
): number | null {
  if (uncertainty === null || isMissing(uncertainty)) return null;
  const value = readNumber(file, line, { column, text: uncertainty }, sign);
  if (value < 0) throw badRow(file, line, `${column} is below 0`);
  if (value > LARGEST_RESPONSE) throw badRow(file, line, `${column} is too large to be true`);
  return value === 0 ? null : value;
}

interface LeftOut {
  readonly line: number;
  readonly why: string;
}

function nameRows(file: string, rows: readonly LeftOut[]): void {
  for (const { line, why } of rows.slice(0, ROWS_NAMED)) {
    console.error(`${file} line ${line}: ${why}; the row is left out.`);
  }
  const more = rows.length - ROWS_NAMED;
  if (more > 0) console.error(`${more} more rows are left out.`);
}
