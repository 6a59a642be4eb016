/** All rows of one session, as they stand: what is carried to another data folder. */
import { z } from 'zod';
import type { Notice } from '#core/events.ts';
import { StoreError } from './errors.ts';
import type { Database, Row } from './sqlite.ts';
import { describeDamage, isIntact, TABLE_NAMES, TABLES, type Table } from './tables.ts';

export interface SessionRow {
  readonly table: Table;
  readonly row: Row;
}

const OF_RECORDINGS = 'recordingId IN (SELECT id FROM recording WHERE sessionId = ?)';
const WHOSE: Readonly<Record<Table, string>> = {
  session: 'id = ?',
  recording: 'sessionId = ?',
  input_chunk: OF_RECORDINGS,
  trial_revision: 'sessionId = ?',
  plateau: OF_RECORDINGS,
  learnt: OF_RECORDINGS,
  ledger: OF_RECORDINGS,
};

/** One row in memory at a time, references pointing backwards; damaged rows are left out. */
export function* readSessionRows(database: Database, sessionId: string): Generator<SessionRow> {
  for (const one of allRows(database, sessionId)) if (isIntact(one.table, one.row)) yield one;
}

/** Rows of the session that are not what was written. */
export function findDamagedOfSession(database: Database, sessionId: string): Notice[] {
  const found: Notice[] = [];
  for (const { table, row } of allRows(database, sessionId)) {
    if (!isIntact(table, row)) found.push({ code: 'row-damaged', ...describeDamage(table, row) });
  }
  return found;
}

function* allRows(database: Database, sessionId: string): Generator<SessionRow> {
  for (const table of TABLE_NAMES) {
    const sql = `SELECT * FROM ${table} WHERE ${WHOSE[table]} ORDER BY id`;
    for (const row of database.iterate(sql, sessionId)) yield { table, row };
  }
}

const CellSchema = z.union([z.string(), z.number()]);
const LineSchema = z.looseObject({ table: z.enum(TABLE_NAMES) });

/** The row as one line of JSON, with its checksum; a blob in base64. */
export function toLine({ table, row }: SessionRow): string {
  const { data } = row;
  const text = data instanceof Uint8Array ? { data: Buffer.from(data).toString('base64') } : {};
  return JSON.stringify({ table, ...row, ...text });
}

/**
 * The row that a line holds.
 * @throws StoreError `data-damaged` for what is no row, or one that its checksum does not fit
 */
export function fromLine(line: string): SessionRow {
  const parsed = LineSchema.safeParse(parseJson(line));
  if (!parsed.success) throw damaged('a line is no row of a session');
  const { table, ...given } = parsed.data;
  const row: Record<string, string | number | Uint8Array> = {};
  for (const column of [...TABLES[table], 'checksum']) {
    const cell = CellSchema.safeParse(given[column]);
    if (!cell.success) throw damaged(`a row of ${table} lacks its ${column}`);
    row[column] = column === 'data' ? Buffer.from(String(cell.data), 'base64') : cell.data;
  }
  if (!isIntact(table, row)) throw damaged(`a row of ${table} does not fit its checksum`);
  return { table, row };
}

function parseJson(line: string): unknown {
  try {
    return JSON.parse(line);
  } catch (error) {
    throw damaged('a line is not JSON', error);
  }
}

function damaged(what: string, cause?: unknown): StoreError {
  return new StoreError('data-damaged', `What the session holds is damaged: ${what}.`, { cause });
}
