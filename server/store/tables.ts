/**
 * Rows that know whether they are what was written. SQLite keeps no checksum of a row: a flipped
 * byte passes its own integrity check. So every table has a column `checksum`, the CRC-32
 * (ISO/IEC 8802-3, the one of zip) of the row's other columns in the table's order, each as its
 * UTF-8 text (a blob as it is) followed by a line feed.
 */
import { crc32 } from 'node:zlib';
import type { Cell, Database, Row } from './sqlite.ts';

/** Every table, in an order in which references point backwards, with its columns in order. */
export const TABLES = {
  session: ['id', 'name', 'startedAt', 'origin'],
  recording: ['id', 'sessionId', 'startedAt', 'engineVersion', 'head'],
  input_chunk: ['id', 'recordingId', 'number', 'data'],
  trial_revision: ['id', 'sessionId', 'recordingId', 'trialId', 'revision', 'trial'],
  plateau: ['id', 'recordingId', 'plateau'],
  learnt: ['id', 'recordingId', 'learnt'],
  ledger: ['id', 'recordingId', 'ledger'],
} as const;

export type Table = keyof typeof TABLES;
export const TABLE_NAMES = Object.keys(TABLES) as Table[];
type Cells<T extends Table> = Readonly<Record<(typeof TABLES)[T][number], Cell>>;

/** @returns the row's checksum */
export function insertRow<T extends Table>(database: Database, table: T, cells: Cells<T>): number {
  const checksum = checksumOf(table, cells);
  writeRow(database, 'INSERT', table, { ...cells, checksum });
  return checksum;
}

/** Copies a row of another file as it stands, unless there is one with its key already. */
export function adoptRow(database: Database, table: Table, row: Row): boolean {
  return writeRow(database, 'INSERT OR IGNORE', table, row) > 0;
}

function writeRow(database: Database, verb: string, table: Table, row: Row): number {
  const columns = [...TABLES[table], 'checksum'];
  const places = columns.map(() => '?').join(', ');
  const sql = `${verb} INTO ${table} (${columns.join(', ')}) VALUES (${places})`;
  return database.run(sql, ...columns.map((column) => row[column] as Cell));
}

/** The number for the next row of a table whose ids count up; rows are never deleted. */
export function nextId(database: Database, table: Exclude<Table, 'session'>): number {
  const sql = `SELECT coalesce(max(id), 0) + 1 AS next FROM ${table}`;
  return Number(database.get(sql)?.['next']);
}

export function isIntact(table: Table, row: Row): boolean {
  return row['checksum'] === checksumOf(table, row);
}

function checksumOf(table: Table, row: Row): number {
  let checksum = 0;
  for (const column of TABLES[table]) {
    const cell = row[column];
    checksum = crc32(cell instanceof Uint8Array ? cell : String(cell), checksum);
    checksum = crc32('\n', checksum);
  }
  return checksum;
}

/** A checksum as people read it: eight hexadecimal digits. */
export function formatChecksum(checksum: number): string {
  return checksum.toString(16).padStart(8, '0');
}

/** What is lost with a damaged row, for a person: in a sentence, and what it is of. */
export function describeDamage(table: Table, row: Row): { message: string; about: string[] } {
  const of = (...columns: string[]): string[] => columns.map((column) => String(row[column]));
  const told = (lost: string, about: string[]) => {
    const message = `${lost} It is left as it is in the data file and not used.`;
    return { message, about: [table, ...about] };
  };
  switch (table) {
    case 'session':
      return told(`The entry of session ${row['id']} is damaged.`, of('id'));
    case 'recording':
      return told(
        `The entry of recording ${row['id']} is damaged; its trials can't be dated.`,
        of('id'),
      );
    case 'input_chunk':
      return told(
        `Part ${row['number']} of the input of recording ${row['recordingId']} is damaged; ` +
          'trials stand, but those of this recording can\'t be derived again.',
        of('recordingId', 'number'),
      );
    case 'trial_revision':
      return told(
        `Trial ${row['trialId']}, revision ${row['revision']}, is damaged.`,
        of('trialId', 'revision'),
      );
    case 'plateau':
      return told(`A plateau of recording ${row['recordingId']} is damaged.`, of('recordingId'));
    case 'learnt':
      return told(
        `What the detector learnt in recording ${row['recordingId']} is damaged.`,
        of('recordingId'),
      );
    case 'ledger':
      return told(
        `A state of the plan in recording ${row['recordingId']} is damaged.`,
        of('recordingId'),
      );
  }
}
