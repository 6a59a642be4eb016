/**
 * Recordings as CSV files: a header, then one row a sample, in the columns `time_s` and any of
 * `voltage_V`, `current_A`, `windSpeed_mps`. Rows come out as plain lines, so that a file goes
 * through the very reader that a board's lines go through.
 */
import { createReadStream } from 'node:fs';
import { basename } from 'node:path';
import type { Link } from '#core/link.ts';
import { LINE_LIMIT } from '#protocol/line-guard.ts';
import { createRowReader, EndlessRow, splitRow, type CsvRow } from './csv-rows.ts';

export const TIME_COLUMN = 'time_s';
const READING_COLUMNS = ['voltage_V', 'current_A', 'windSpeed_mps'];
const EXAMPLE = [TIME_COLUMN, ...READING_COLUMNS].join(',');

/** The most characters of a row, unread columns included. */
const ROW_LIMIT = 65_536;

/** Plain lines in order: `lines[i]` is line `firstLine + i` of the file. The very first is the header. */
export interface CsvBatch {
  readonly firstLine: number;
  readonly lines: readonly string[];
}

export type CsvErrorCode =
  | 'file-missing'
  | 'file-is-folder'
  | 'file-unreadable'
  | 'file-not-text'
  | 'csv-empty'
  | 'csv-columns-unusable'
  | 'csv-row-endless';

/** A file that can't be read as a recording. The message names file, line and what to do. */
export class CsvError extends Error {
  readonly code: CsvErrorCode;
  constructor(code: CsvErrorCode, message: string) {
    super(message);
    this.code = code;
  }
}

/** The link that a file's lines come over: their times are stream time as they stand. */
export function fileLink(path: string): Link {
  return { source: 'replay', id: `file:${path}`, name: basename(path), clock: 'stream', wholeFromStart: true };
}

/**
 * Streams through the file once, in memory bounded by ROW_LIMIT.
 * @param onIgnored is told the columns that are not read, when there are any
 * @throws CsvError
 */
export async function* readCsvLines(
  path: string,
  onIgnored: (columns: readonly string[]) => void = () => undefined,
): AsyncGenerator<CsvBatch> {
  let columns: Columns | null = null;
  for await (const rows of readRows(path)) {
    const [first] = rows;
    if (first === undefined) continue;
    if (columns !== null) {
      yield* toBatches(rows, columns);
      continue;
    }
    columns = readHeader(path, first);
    if (columns.ignored.length > 0) onIgnored(columns.ignored);
    yield { firstLine: first.line, lines: [columns.header] };
    yield* toBatches(rows.slice(1), columns);
  }
  if (columns === null) {
    throw new CsvError('csv-empty', `${path} is empty. A recording begins with a header such as ${EXAMPLE}.`);
  }
}

/** Whether the file is there and its header can be used. @throws CsvError */
export async function checkCsv(path: string): Promise<void> {
  await readCsvLines(path).next();
}

async function* readRows(path: string): AsyncGenerator<readonly CsvRow[]> {
  const reader = createRowReader(ROW_LIMIT);
  try {
    for await (const text of readText(path)) yield reader.push(text);
    yield reader.end();
  } catch (error) {
    if (!(error instanceof EndlessRow)) throw error;
    throw new CsvError(
      'csv-row-endless',
      `${path} line ${error.line}: the row does not end. A quotation mark may lack its partner; put it right and try again.`,
    );
  }
}

/** The file's text, chunk by chunk, without the mark that some programs put before it. */
async function* readText(path: string): AsyncGenerator<string> {
  let isFirst = true;
  try {
    for await (const chunk of createReadStream(path, 'utf8')) {
      const text = String(chunk);
      if (text.includes('\0')) {
        throw new CsvError('file-not-text', `${path} is not plain text. Export the recording as CSV in UTF-8.`);
      }
      yield isFirst ? text.replace(/^\uFEFF/, '') : text;
      isFirst = false;
    }
  } catch (error) {
    throw explainFileError(path, error);
  }
}

function explainFileError(path: string, error: unknown): unknown {
  const code = error instanceof Error && 'code' in error ? error.code : null;
  switch (code) {
    case 'ENOENT':
      return new CsvError('file-missing', `There is no file ${path}. Check its name and folder.`);
    case 'EISDIR':
      return new CsvError('file-is-folder', `${path} is a folder. Name a CSV file in it.`);
    case 'EACCES':
    case 'EPERM':
      return new CsvError('file-unreadable', `This account may not read ${path}. Copy it to a folder of your own.`);
    default:
      return error;
  }
}

/** Which fields of a row are read, and the header that says so. */
interface Columns {
  readonly header: string;
  readonly picked: readonly number[];
  /** Fields of every row. */
  readonly count: number;
  readonly ignored: readonly string[];
}

function readHeader(path: string, row: CsvRow): Columns {
  const names = (splitRow(row.text) ?? []).map((name) => name.trim());
  const isRead = (name: string): boolean => name === TIME_COLUMN || READING_COLUMNS.includes(name);
  const picked = [...names.keys()].filter((index) => isRead(names[index] ?? ''));
  const read = picked.map((index) => names[index] ?? '');
  const fault = headerFault(row.text, read);
  if (fault !== null) {
    throw new CsvError('csv-columns-unusable', `${path} line ${row.line}: ${fault} A recording begins with a header such as ${EXAMPLE}.`);
  }
  return {
    header: read.join(','),
    picked,
    count: names.length,
    ignored: names.filter((name) => !isRead(name)),
  };
}

function headerFault(text: string, read: readonly string[]): string | null {
  const twice = read.find((name, index) => read.indexOf(name) !== index);
  if (twice !== undefined) return `the column ${twice} is there twice.`;
  if (read.includes(TIME_COLUMN) && read.length > 1) return null;
  if (/[;\t]/.test(text) && !text.includes(',')) return 'the columns are not separated by commas.';
  if (/^[\s\d.,;+-]+$/.test(text)) return 'there are numbers where the names of the columns should be.';
  return read.includes(TIME_COLUMN)
    ? `there is none of the columns ${READING_COLUMNS.join(', ')}.`
    : `there is no column ${TIME_COLUMN}.`;
}

/** Rows that stand on lines without a gap go into one batch. */
function* toBatches(rows: readonly CsvRow[], columns: Columns): Generator<CsvBatch> {
  let firstLine = 0;
  let lines: string[] = [];
  for (const { line, text } of rows) {
    if (line !== firstLine + lines.length) {
      if (lines.length > 0) yield { firstLine, lines };
      [firstLine, lines] = [line, []];
    }
    lines.push(toPlainLine(text, columns));
  }
  if (lines.length > 0) yield { firstLine, lines };
}

/**
 * The fields that are read, as a plain line. A row with more or fewer fields than the header has
 * says of none of them which column it belongs to: its line gets one field too many, to be counted
 * as such.
 */
function toPlainLine(text: string, { picked, count }: Columns): string {
  const fields = splitRow(text) ?? [];
  const read = picked.map((index) => plainField(fields[index] ?? '', picked.length));
  return fields.length === count ? read.join(',') : [...read, ''].join(',');
}

/** What a number can't hold is made visible as such, so that no field can pass for two or for none. */
function plainField(field: string, fieldCount: number): string {
  if (/^[\d.eE+-]*$/.test(field) && field.length < LINE_LIMIT / fieldCount) return field;
  const shown = field.trim().replace(/[^ -~]|,/g, '?');
  return shown.length < LINE_LIMIT / fieldCount ? shown : '?';
}
