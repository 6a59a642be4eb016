/**
 * A damaged data file is kept under another name, and a new one is made of the newest copy and of
 * every readable row of the damaged file. Rows carry checksums, so that what is read is what was
 * written.
 */
import { copyFileSync, existsSync, renameSync, rmSync, statSync } from 'node:fs';
import { basename, join } from 'node:path';
import type { Notice } from '#core/events.ts';
import type { DataFiles } from './data-folder.ts';
import { flushFile } from './flush-file.ts';
import { migrate, refuseNewer } from './schema.ts';
import {
  inTransaction,
  openDatabase,
  openDatabaseReadOnly,
  RESULT,
  resultCode,
  saysDamaged,
  type Database,
  type Row,
} from './sqlite.ts';
import { adoptRow, describeDamage, isIntact, TABLE_NAMES, type Table } from './tables.ts';

/** More damaged rows than this are counted, not listed. */
const LISTED_ROWS = 20;

/** Whether the structure of the file is sound to SQLite. Leaves no statement behind. */
export function isSound(database: Database): boolean {
  try {
    database.exec(`
      CREATE TEMP TABLE verdict (text TEXT CHECK (text = 'ok'));
      INSERT INTO verdict SELECT quick_check FROM pragma_quick_check;
      DROP TABLE verdict;
    `);
    return true;
  } catch (error) {
    if (saysDamaged(error) || resultCode(error) === RESULT.constraint) return false;
    throw error;
  }
}

/** Rows of these tables that are not what was written, for a person. */
export function findDamagedRows(database: Database, tables: readonly Table[]): Notice[] {
  const found: ReturnType<typeof describeDamage>[] = [];
  for (const table of tables) {
    for (const row of database.iterate(`SELECT * FROM ${table}`)) {
      if (!isIntact(table, row)) found.push(describeDamage(table, row));
    }
  }
  const listed = found.slice(0, LISTED_ROWS);
  const rest = found.length - listed.length;
  const message = `${rest} more rows are damaged.`;
  if (rest > 0) listed.push({ message, about: ['more', String(rest)] });
  return listed.map((told) => ({ code: 'row-damaged', ...told }));
}

/**
 * Puts a sound data file in the place of a damaged, emptied or missing one, which must be closed.
 */
export function restore(files: DataFiles, now: Date): Notice {
  const stamp = now.toISOString().replace(/[:.]/g, '-');
  const kept = join(files.folder, `stillmark-damaged-${stamp}.sqlite`);
  // The write-ahead log belongs to the file: it may hold the newest commits.
  for (const suffix of ['', '-wal', '-shm']) moveIfThere(files.database + suffix, kept + suffix);
  const was = existsSync(kept) ? `was damaged or emptied; it is kept as ${basename(kept)}` : 'was gone';
  const copiedAt = putCopyInPlace(files);
  const from = copiedAt === null ? 'There was no usable copy' : `The copy of ${copiedAt} is in its place`;
  const salvaged = existsSync(kept) ? salvage(kept, files.database) : 0;
  return {
    code: 'data-restored',
    message:
      `The data file ${was}. ${from}, with ${salvaged} more rows that could be read from the old file. ` +
      'Look through the newest trials: the last ones before the damage may be missing.',
    about: [existsSync(kept) ? basename(kept) : '', copiedAt ?? '', String(salvaged)],
  };
}

function moveIfThere(from: string, to: string): void {
  if (existsSync(from)) renameSync(from, to);
}

/** @returns when the copy was made (RFC 3339), null when there is none that is sound */
function putCopyInPlace({ copy, database: path }: DataFiles): string | null {
  if (!existsSync(copy)) return null;
  copyFileSync(copy, path);
  flushFile(path);
  const database = openDatabase(path);
  const sound = isSound(database);
  database.close();
  if (sound) return statSync(copy).mtime.toISOString();
  rmSync(path);
  return null;
}

/** @returns how many rows the damaged file gave that the copy did not have */
function salvage(damagedFile: string, path: string): number {
  const target = openDatabase(path);
  const source = openDatabaseReadOnly(damagedFile);
  try {
    refuseNewer(target, path);
    migrate(target);
    // A row is kept even when the one it refers to is lost.
    target.exec('PRAGMA foreign_keys = OFF');
    return inTransaction(target, () => {
      let adopted = 0;
      for (const table of TABLE_NAMES) {
        // From both ends: a broken page ends a walk, and the rows beyond it count too.
        adopted += adoptRows(table, source, target, 'ASC') + adoptRows(table, source, target, 'DESC');
      }
      return adopted;
    });
  } finally {
    source.close();
    target.close();
  }
}

function adoptRows(table: Table, source: Database, target: Database, order: 'ASC' | 'DESC'): number {
  let adopted = 0;
  for (const row of readableRows(table, source, order)) {
    if (isIntact(table, row) && adoptRow(target, table, row)) adopted += 1;
  }
  return adopted;
}

/** Rows up to the first that can't be read: a broken page, or a file that is no database at all. */
function* readableRows(table: Table, source: Database, order: 'ASC' | 'DESC'): Generator<Row> {
  try {
    yield* source.iterate(`SELECT * FROM ${table} ORDER BY id ${order}`);
  } catch (error) {
    if (resultCode(error) === null) throw error;
  }
}
