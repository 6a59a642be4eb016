import { compare as compareTrials } from '#core/experiment/comparison/compare.ts';
import {
  LARGEST_RESPONSE,
  type ComparedTrial,
  type Comparison,
} from '#core/experiment/comparison/comparison-schema.ts';
import { wordsFor, type Words } from '#core/experiment/comparison/words.ts';
import { separatorIn, splitRow, type CsvRow, type CsvSeparator } from '#core/csv-rows.ts';
import { decimalSignOf, isMissing, readDecimal, type DecimalSign } from '#core/decimal-sign.ts';
import { decimalAt, firstPlace, NO_VALUE, placeOf } from '#core/metrology/format.ts';
import { readCsvRows } from '../sources/csv.ts';
import { aligned } from './aligned.ts';
import { readArguments } from './arguments.ts';
import { InputError } from './exit-errors.ts';

const USAGE = 'stillmark compare FILE.csv --factor COLUMN --response COLUMN [--block COLUMN] [--json]';
/** Below it, squares would leave the range of a double. */
const SMALLEST_RESPONSE = 1 / LARGEST_RESPONSE;
/** More are no levels of a factor: another column was meant. */
const MOST_LEVELS = 100;
/** Rows that are left out are named one by one on stderr, before only their count is given. */
const ROWS_NAMED = 10;
/** What stands in the column of the response where that was the outcome. */
const DID_NOT_TURN = 'did not turn';

/** `stillmark compare FILE.csv`: which level gives the most, and how sure that is. */
export async function compare(argv: readonly string[]): Promise<number> {
  const text = { type: 'string' } as const;
  const options = { factor: text, response: text, block: text, json: { type: 'boolean' } } as const;
  const { values, positionals } = readArguments(argv, options, 1);
  const [file] = positionals;
  const { factor, response, block } = values;
  if (file === undefined) throw new InputError('missing-file', `Name the table of trials: ${USAGE}`);
  if (factor === undefined || response === undefined) {
    throw new InputError('missing-column', `Say which columns to compare: ${USAGE}`);
  }
  if (new Set([factor, response, block]).size < 3) {
    throw new InputError('bad-value', `Factor, response and block are columns of their own: ${USAGE}`);
  }
  const trials = await readTrials(file, { factor, response, block });
  const comparison = compareTrials({ factor, response, looks: 'once', trials });
  const words = wordsFor({ factor, response });
  console.log(values.json ? JSON.stringify(comparison, null, 2) : toText(comparison, words));
  return 0;
}

interface Columns {
  readonly factor: string;
  readonly response: string;
  readonly block: string | undefined;
}

/** A row's cells of the columns that are asked for. */
interface Cells {
  readonly line: number;
  readonly factor: string;
  readonly response: string;
  readonly block: string | null;
  /** The table says itself that nothing turned. */
  readonly isStill: boolean;
}

async function readTrials(file: string, columns: Columns): Promise<ComparedTrial[]> {
  const { cells, separator } = await readCells(file, columns);
  const texts = cells.flatMap(({ factor, response }) => [factor, response]);
  const sign = decimalSignOf(separator, texts);
  const levels = cells.map(({ factor }) => readDecimal(factor, sign));
  const isNumeric = levels.every((level) => level !== null);
  const responses = cells.map((row) => readResponse(file, row, columns.response, sign));
  const trials = cells.flatMap(({ factor, block }, i): ComparedTrial[] => {
    const response = responses[i] ?? null;
    if (response === null) return [];
    // Adding 0 makes no zero negative.
    const level = isNumeric ? (levels[i] ?? 0) + 0 : factor;
    return [{ ...response, level, block, order: null, second: null, standardUncertainty: null }];
  });
  const missing = cells.filter((_, i) => responses[i] === null);
  nameRows(file, missing.map(({ line }) => ({ line, why: `${columns.response} is missing` })));
  if (trials.length === 0) {
    throw new InputError('no-trials', `${file} holds no row with a ${columns.response}. Fill the column in.`);
  }
  if (new Set(trials.map(({ level }) => level)).size > MOST_LEVELS) {
    throw new InputError(
      'too-many-levels',
      `${columns.factor} has more than ${MOST_LEVELS} different values in ${file}. Name the column with the levels that were set.`,
    );
  }
  return trials;
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
  readonly factor: number;
  readonly response: number;
  readonly block: number | null;
  /** Columns of a table that was exported here; −1 where there is none. */
  readonly own: Readonly<Record<(typeof OWN)[number], number>>;
}

/** What an exported table says of its trials (docs/export.md). */
const OWN = ['run', 'struck', 'recorded', 'rotor_still'] as const;

/** Trials that are in the record and count for nothing; null: it counts. */
function whyNotCounted(fields: readonly string[], { places }: Table): string | null {
  const { own, factor } = places;
  if (fields[own.struck] === 'true') return 'it is struck';
  if (fields[own.recorded] === 'false') return 'it was cut short';
  const isStray = own.run >= 0 && fields[own.run] === '' && fields[factor] === '';
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
  const { factor, response, block } = columns;
  return {
    factor: placeOfColumn(factor),
    response: placeOfColumn(response),
    block: block === undefined ? null : placeOfColumn(block),
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
  const cell = (place: number): string => fields[place] ?? '';
  const block = places.block === null ? null : cell(places.block);
  if (cell(places.factor) === '') throw badRow(file, line, `${columns.factor} is empty`);
  if (block === '') throw badRow(file, line, `${columns.block ?? ''} is empty`);
  const isStill = fields[places.own.rotor_still] === 'true';
  return { line, factor: cell(places.factor), response: cell(places.response), block, isStill };
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
  const value = readDecimal(response, sign);
  if (value === null) {
    const withPoint = /^[-+−]?\d*,\d+$/.test(response) ? ' (write a decimal point)' : '';
    const other = sign === ',' ? ' (numbers of this table have a decimal comma)' : withPoint;
    throw badRow(file, line, `${column} is “${response}”, which is not a number${other}`);
  }
  if (Math.abs(value) > LARGEST_RESPONSE) throw badRow(file, line, `${column} is too large to be true`);
  if (value !== 0 && Math.abs(value) < SMALLEST_RESPONSE) {
    throw badRow(file, line, `${column} is too small to be true`);
  }
  return { response: value, didNotTurn: false };
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

function toText(comparison: Comparison, words: Words): string {
  const { levels, anova, welch, best, optimum, next } = comparison;
  const rows = levels.map(({ level, count, didNotTurn, mean, low, high, limitsFrom }) => {
    if (mean === null) return [words.level(level), String(didNotTurn), DID_NOT_TURN, ''];
    const half = low === null || high === null || limitsFrom !== 'trials' ? null : (high - low) / 2;
    const place = half === null ? (mean === 0 ? 0 : firstPlace(mean) - 3) : placeOf(half);
    const spread = half === null ? NO_VALUE : decimalAt(half, place);
    return [words.level(level), String(count), decimalAt(mean, place), `± ${spread}`];
  });
  const tests = [
    anova && `same scatter at all levels: F(${anova.dfBetween}, ${anova.dfWithin}) = ${digits(anova.f)}, ${chance(anova.p)}`,
    welch && `each with its own: F(${welch.df1}, ${digits(welch.df2)}) = ${digits(welch.f)}, ${chance(welch.p)}`,
  ].filter((test) => test !== null);
  return [
    ...aligned([['level', 'trials', 'mean', '± 95 %'], ...rows]),
    '',
    best.statement,
    ...(optimum.kind === 'none' ? [] : [optimum.statement]),
    ...(next.length > 0 ? ['', 'Next:'] : []),
    ...next.map(({ level, reason }) => `  ${words.level(level)}: ${reason}`),
    ...(tests.length > 0 ? ['', 'Do the levels differ at all?'] : []),
    ...tests.map((test) => `  ${test}`),
  ].join('\n');
}

function chance(p: number): string {
  return p < 0.0001 ? 'p < 0.0001' : `p = ${digits(p)}`;
}

function digits(value: number): string {
  return String(Number(value.toPrecision(3)));
}
