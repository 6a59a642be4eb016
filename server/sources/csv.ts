/**
 * Recordings as CSV files (RFC 4180; semicolons and tabs as separators, too): a header that names
 * columns as a board's header does, then one row a sample. Rows come out as plain lines, so that a
 * file goes through the very reader that a board's lines go through.
 */
import { createReadStream } from 'node:fs';
import { basename } from 'node:path';
import type { Link } from '#core/link.ts';
import { columnNamed, type Column } from '#protocol/plain-header.ts';
import type { QuantityName } from '#protocol/quantity.ts';
import {
  createRowReader,
  EndlessRow,
  separatorIn,
  splitRow,
  type CsvRow,
  type CsvSeparator,
} from '#core/csv-rows.ts';

const EXAMPLE = 'time_s,voltage_V,current_A,windSpeed_mps';
/** A file with none of these has nothing that could settle. */
const READINGS: readonly QuantityName[] = ['voltage', 'current', 'windSpeed', 'rotorSpeed'];

/** The most characters of a row, columns that are not read included. */
const ROW_LIMIT = 65_536;
/** The most characters of a field that is read; no number is longer. */
const FIELD_LIMIT = 64;

/** Plain lines: `lines[i]` is line `firstLine + i` of the file. The very first is the header. */
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
  return {
    source: 'replay',
    id: `file:${path}`,
    name: basename(path),
    clock: 'stream',
    wholeFromStart: true,
  };
}

/**
 * Streams through the file once, in memory bounded by ROW_LIMIT.
 * @throws CsvError
 */
export async function* readCsvLines(path: string): AsyncGenerator<CsvBatch> {
  let table: Table | null = null;
  for await (const rows of readCsvRows(path)) {
    const [first] = rows;
    if (first === undefined) continue;
    table ??= readHeader(path, first);
    yield* toBatches(rows, table);
  }
  if (table === null) {
    throw new CsvError('csv-empty', `${path} is empty. A recording begins with a header such as ${EXAMPLE}.`);
  }
}

/** Whether the file is there and its header can be used. @throws CsvError */
export async function checkCsv(path: string): Promise<void> {
  const lines = readCsvLines(path);
  await lines.next();
  // Closes the file, of which nothing more is wanted now.
  await lines.return(undefined);
}

/** The rows of any CSV file, in memory bounded by ROW_LIMIT. @throws CsvError */
export async function* readCsvRows(path: string): AsyncGenerator<readonly CsvRow[]> {
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
        throw new CsvError('file-not-text', `${path} is not plain text. Export the table as CSV in UTF-8.`);
      }
      yield isFirst ? text.replace(/^\uFEFF/, '') : text;
      isFirst = false;
    }
  } catch (error) {
    throw explainFileError(path, error);
  }
}

/** A coded error with a sentence for what a person can put right; else the error itself. */
export function explainFileError(path: string, error: unknown): unknown {
  const code = error instanceof Error && 'code' in error ? error.code : null;
  switch (code) {
    case 'ENOENT':
      return new CsvError('file-missing', `There is no file ${path}. Check its name and folder.`);
    case 'EISDIR':
      return new CsvError('file-is-folder', `${path} is a folder. Name a file in it.`);
    case 'EACCES':
    case 'EPERM':
      return new CsvError('file-unreadable', `This account may not read ${path}. Copy it to a folder of your own.`);
    default:
      return error;
  }
}

/** How the rows of a file are to be read. */
interface Table {
  readonly separator: CsvSeparator;
  readonly headerLine: number;
  readonly isRead: readonly boolean[];
  /** Every column is read, so that plain rows can pass as they are. */
  readonly isWhole: boolean;
}

function readHeader(path: string, { line, text }: CsvRow): Table {
  const separator = separatorIn(text);
  const columns = (splitRow(text, separator) ?? []).map((name) => columnNamed(name.trim()));
  const fault = headerFault(text, columns);
  if (fault !== null) {
    throw new CsvError(
      'csv-columns-unusable',
      `${path} line ${line}: ${fault}. A recording begins with a header such as ${EXAMPLE}.`,
    );
  }
  const isRead = columns.map(({ role }) => role !== 'ignored');
  return { separator, headerLine: line, isRead, isWhole: !isRead.includes(false) };
}

function headerFault(text: string, columns: readonly Column[]): string | null {
  if (/^[\s\d.,;+-]+$/.test(text)) return 'there are numbers where the names of the columns should be';
  if (!columns.some(({ role }) => role === 'time')) return 'there is no column time_s';
  const isReading = (column: Column): boolean =>
    column.role === 'quantity' && READINGS.includes(column.quantity);
  return columns.some(isReading) ? null : 'there is no column with voltage, current or wind speed';
}

/** Rows that stand on lines without a gap go into one batch. */
function* toBatches(rows: readonly CsvRow[], table: Table): Generator<CsvBatch> {
  let firstLine = 0;
  let lines: string[] = [];
  for (const row of rows) {
    if (row.line !== firstLine + lines.length) {
      if (lines.length > 0) yield { firstLine, lines };
      [firstLine, lines] = [row.line, []];
    }
    const toLine = row.line === table.headerLine ? toHeader : toPlainLine;
    lines.push(toLine(row.text, table));
  }
  if (lines.length > 0) yield { firstLine, lines };
}

function toHeader(text: string, { separator }: Table): string {
  const names = splitRow(text, separator) ?? [];
  // A name that begins like a number would make the line look like one of numbers.
  return names
    .map((name) => inPlain(name, separator).replace(/^[-+.]?\d/, 'column $&'))
    .join(separator);
}

/** What almost all rows and fields are; they need no second look. */
const PLAIN_ROW = /^[\w.,;\t+-]*$/;
const PLAIN_FIELD = /^[\w.+-]*$/;

/** Where commas don't separate, one in a number is its decimal sign. */
const DECIMAL_COMMA = /^([-+]?\d*),(\d+)$/;

/** Fields that are not read are left empty: they may hold anything, a plain line may not. */
function toPlainLine(text: string, { separator, isRead, isWhole }: Table): string {
  const isDotted = separator === ',' || !text.includes(',');
  if (isWhole && isDotted && text.length <= FIELD_LIMIT && PLAIN_ROW.test(text)) return text;
  const fields = splitRow(text, separator) ?? [];
  const kept = fields.map((field, index) => (isRead[index] ? inPlain(field, separator) : ''));
  return kept.join(separator);
}

/** What a plain line can't hold is made visible, so that no field can pass for two or none. */
function inPlain(field: string, separator: CsvSeparator): string {
  if (field.length <= FIELD_LIMIT && PLAIN_FIELD.test(field)) return field;
  const trimmed = field.trim();
  const shown = separator === ',' ? trimmed : trimmed.replace(DECIMAL_COMMA, '$1.$2');
  if (shown.length > FIELD_LIMIT) return '?';
  return shown.replace(/[^ -~]|"/g, '?').replaceAll(separator, '?');
}
