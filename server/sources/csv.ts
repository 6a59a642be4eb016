/**
 * Recordings as CSV files (RFC 4180; semicolons and tabs as separators, too): a header that names
 * columns as a board's header does, then one row a sample. Rows come out as plain lines, so that a
 * file goes through the very reader that a board's lines go through.
 */
import { createReadStream } from 'node:fs';
import { basename } from 'node:path';
import { addAbortSignal, type Readable } from 'node:stream';
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
import { plainColumn } from './csv-columns.ts';
import { createStampReader, isStampColumn, type StampReader } from './csv-times.ts';

/** In place of a file's name: what another program pipes in (POSIX, utility syntax guideline 13). */
const STANDARD_INPUT = '-';

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
  /** The line is passed over instead: it is longer than any row. */
  readonly dropped?: 'tooLong';
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

/** What a file is called in a sentence. */
export function shownName(path: string): string {
  return path === STANDARD_INPUT ? 'standard input' : path;
}

/** The link that a file's lines come over: their times are stream time as they stand. */
export function fileLink(path: string): Link {
  return {
    source: 'replay',
    id: `file:${path}`,
    name: basename(shownName(path)),
    clock: 'stream',
    wholeFromStart: true,
  };
}

/**
 * Streams through the file once, in memory bounded by ROW_LIMIT.
 * @param path a file, or `-` for standard input
 * @param stopping ends the reading early; a row that was not whole by then is left out
 * @throws CsvError
 */
export async function* readCsvLines(
  path: string,
  stopping: AbortSignal | null = null,
): AsyncGenerator<CsvBatch> {
  let table: Table | null = null;
  const tooLong: number[] = [];
  const pass = (line: number): void => {
    if (table === null) throw new EndlessRow(line);
    tooLong.push(line);
  };
  for await (const rows of readRows(path, stopping, pass)) {
    const [first] = rows;
    if (first !== undefined) {
      table ??= readHeader(path, first);
      yield* toBatches(path, rows, table);
    }
    for (const firstLine of tooLong.splice(0)) yield { firstLine, lines: [], dropped: 'tooLong' };
  }
  if (table === null) {
    throw new CsvError('csv-empty', `${shownName(path)} is empty. A recording begins with a header such as ${EXAMPLE}.`);
  }
}

/** Whether the file is there and its header can be used. @throws CsvError */
export async function checkCsv(path: string): Promise<void> {
  if (path === STANDARD_INPUT) {
    throw new CsvError('file-missing', 'Standard input can’t be replayed. Save it as a file and name that.');
  }
  const lines = readCsvLines(path);
  await lines.next();
  // Closes the file, of which nothing more is wanted now.
  await lines.return(undefined);
}

/** The rows of any CSV file, in memory bounded by ROW_LIMIT. @throws CsvError */
export function readCsvRows(path: string): AsyncGenerator<readonly CsvRow[]> {
  return readRows(path, null, null);
}

async function* readRows(
  path: string,
  stopping: AbortSignal | null,
  onTooLong: ((line: number) => void) | null,
): AsyncGenerator<readonly CsvRow[]> {
  const reader = createRowReader(ROW_LIMIT, onTooLong);
  try {
    for await (const text of readText(path, stopping)) yield reader.push(text);
    if (!stopping?.aborted) yield reader.end();
  } catch (error) {
    if (!(error instanceof EndlessRow)) throw error;
    throw new CsvError(
      'csv-row-endless',
      `${shownName(path)} line ${error.line}: the row does not end. A quotation mark may lack its partner; put it right and try again.`,
    );
  }
}

function openText(path: string, stopping: AbortSignal | null): Readable {
  const stream =
    path === STANDARD_INPUT ? process.stdin.setEncoding('utf8') : createReadStream(path, 'utf8');
  return stopping === null ? stream : addAbortSignal(stopping, stream);
}

/** The file's text, chunk by chunk, without the mark that some programs put before it. */
async function* readText(path: string, stopping: AbortSignal | null): AsyncGenerator<string> {
  let isFirst = true;
  try {
    for await (const chunk of openText(path, stopping)) {
      const text = String(chunk);
      if (text.includes('\0')) {
        throw new CsvError('file-not-text', `${shownName(path)} is not plain text. Export the table as CSV in UTF-8.`);
      }
      yield isFirst ? text.replace(/^\uFEFF/, '') : text;
      isFirst = false;
    }
  } catch (error) {
    if (!stopping?.aborted) throw explainFileError(path, error);
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
  /** As a header of plain lines names them. */
  readonly names: readonly string[];
  readonly isRead: readonly boolean[];
  /** Every column is read, so that plain rows can pass as they are. */
  readonly isWhole: boolean;
  /** The column that may hold time stamps. */
  readonly stampsAt: number;
  readonly stamps: StampReader;
  /** A time without a unit must be a stamp. */
  readonly mustBeStamp: boolean;
}

function readHeader(path: string, { line, text }: CsvRow): Table {
  const separator = separatorIn(text);
  const said = (splitRow(text, separator) ?? []).map((name) => plainColumn(name.trim()));
  const hasTime = said.some((name) => columnNamed(name).role === 'time');
  const stampsAt = said.findIndex((name) => isStampColumn(name) && (!hasTime || name === 'time_s'));
  const names = said.map((name, index) => (index === stampsAt ? 'time_s' : name));
  const columns = names.map(columnNamed);
  const fault = headerFault(text, columns);
  if (fault !== null) {
    throw new CsvError(
      'csv-columns-unusable',
      `${shownName(path)} line ${line}: ${fault}. A recording begins with a header such as ${EXAMPLE}.`,
    );
  }
  const isRead = columns.map(({ role }) => role !== 'ignored');
  const mustBeStamp = !hasTime;
  return {
    separator,
    headerLine: line,
    names,
    isRead,
    isWhole: !isRead.includes(false) && !mustBeStamp,
    stampsAt,
    stamps: createStampReader(),
    mustBeStamp,
  };
}

function headerFault(text: string, columns: readonly Column[]): string | null {
  if (/^[\s\d.,;+-]+$/.test(text)) return 'there are numbers where the names of the columns should be';
  if (!columns.some(({ role }) => role === 'time')) return 'there is no column time_s';
  const isReading = (column: Column): boolean =>
    column.role === 'quantity' && READINGS.includes(column.quantity);
  return columns.some(isReading) ? null : 'there is no column with voltage, current or wind speed';
}

/** Rows that stand on lines without a gap go into one batch. */
function* toBatches(path: string, rows: readonly CsvRow[], table: Table): Generator<CsvBatch> {
  let firstLine = 0;
  let lines: string[] = [];
  for (const row of rows) {
    if (row.line !== firstLine + lines.length) {
      if (lines.length > 0) yield { firstLine, lines };
      [firstLine, lines] = [row.line, []];
    }
    lines.push(row.line === table.headerLine ? toHeader(table) : toPlainLine(path, row, table));
  }
  if (lines.length > 0) yield { firstLine, lines };
}

function toHeader({ names, separator }: Table): string {
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
function toPlainLine(path: string, { line, text }: CsvRow, table: Table): string {
  const { separator, isRead, isWhole } = table;
  const isDotted = separator === ',' || !text.includes(',');
  if (isWhole && isDotted && text.length <= FIELD_LIMIT && PLAIN_ROW.test(text)) return text;
  const fields = splitRow(text, separator) ?? [];
  const kept = fields.map((field, index) => {
    if (index === table.stampsAt) return inSeconds(`${shownName(path)} line ${line}`, field, table);
    return isRead[index] ? inPlain(field, separator) : '';
  });
  return kept.join(separator);
}

/** A time stamp as seconds since the first, or what else the field holds. @throws CsvError */
function inSeconds(where: string, field: string, table: Table): string {
  const { stamps, mustBeStamp, separator } = table;
  const seconds = stamps.read(field);
  if (seconds !== null) return seconds;
  const plain = inPlain(field, separator);
  if (!mustBeStamp || stamps.hasBegun() || !Number.isFinite(Number.parseFloat(plain))) return plain;
  throw new CsvError(
    'csv-columns-unusable',
    `${where}: “${plain}” is no time stamp such as 2026-03-04T10:15:00.25Z or 10:15:00.25. Seconds go in a column named time_s, others in time_ms or time_us.`,
  );
}

/** What a plain line can't hold is made visible, so that no field can pass for two or none. */
function inPlain(field: string, separator: CsvSeparator): string {
  if (field.length <= FIELD_LIMIT && PLAIN_FIELD.test(field)) return field;
  const trimmed = field.trim();
  const shown = separator === ',' ? trimmed : trimmed.replace(DECIMAL_COMMA, '$1.$2');
  if (shown.length > FIELD_LIMIT) return '?';
  return shown.replace(/[^ -~]|"/g, '?').replaceAll(separator, '?');
}
