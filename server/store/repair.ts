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
import { migrate, schemaVersion, SCHEMA_VERSION } from './schema.ts';
import { inTransaction, openDatabase, openDatabaseReadOnly, saysDamaged, type Database } from './sqlite.ts';
import { adoptRow, describeDamage, isIntact, TABLE_NAMES, type Row, type Table } from './tables.ts';

/** More damaged rows than this are counted, not listed. */
const LISTED_ROWS = 20;

/** What SQLite finds wrong with the structure of the file, null when it is sound. */
export function findDamage(database: Database): string | null {
  try {
    const row = database.prepare('PRAGMA quick_check(1)').get() as { quick_check: string };
    return row.quick_check === 'ok' ? null : row.quick_check;
  } catch (error) {
    if (saysDamaged(error)) return (error as Error).message;
    throw error;
  }
}

/** Rows that are not what was written, for a person. */
export function findDamagedRows(database: Database): Notice[] {
  const found: string[] = [];
  for (const table of TABLE_NAMES) {
    for (const row of database.prepare(`SELECT * FROM ${table}`).iterate() as Iterable<Row>) {
      if (!isIntact(table, row)) found.push(describeDamage(table, row));
    }
  }
  const messages = found.slice(0, LISTED_ROWS);
  if (found.length > LISTED_ROWS) messages.push(`${found.length - LISTED_ROWS} more rows are damaged.`);
  return messages.map((message) => ({ code: 'row-damaged', message }));
}

/**
 * Puts a sound data file in the place of a damaged or missing one, which must be closed.
 * @param damage what is wrong with it, for the notice
 */
export function restore(files: DataFiles, damage: string, now: Date): Notice {
  const restored = join(files.folder, 'stillmark-restoring.sqlite');
  const stamp = now.toISOString().replace(/[:.]/g, '-');
  const kept = join(files.folder, `stillmark-damaged-${stamp}.sqlite`);
  for (const suffix of SUFFIXES) rmSync(restored + suffix, { force: true });
  const copiedAt = copyBackup(files.backup, restored);
  const salvaged = salvageInto(restored, files.database);
  for (const suffix of SUFFIXES) moveIfThere(files.database + suffix, kept + suffix);
  flushFile(restored);
  renameSync(restored, files.database);
  const from = copiedAt === null ? 'There was no usable copy' : `The copy of ${copiedAt} is in its place`;
  return {
    code: 'data-restored',
    message:
      `The data file was damaged (${damage}). It is kept as ${basename(kept)}. ` +
      `${from}, with ${salvaged} more rows that could be read from the damaged file. ` +
      'Look through the newest trials: the last ones before the damage may be missing.',
  };
}

/** The write-ahead log belongs to the file: it may hold the newest commits. */
const SUFFIXES = ['', '-wal', '-shm'] as const;

function moveIfThere(from: string, to: string): void {
  if (existsSync(from)) renameSync(from, to);
}

/** @returns when the copy was made (RFC 3339), null when there is none that is sound */
function copyBackup(backup: string, to: string): string | null {
  if (!existsSync(backup)) return null;
  copyFileSync(backup, to);
  const database = openDatabase(to);
  try {
    const version = findDamage(database) === null ? schemaVersion(database) : 0;
    if (version > 0 && version <= SCHEMA_VERSION) return statSync(backup).mtime.toISOString();
  } finally {
    database.close();
  }
  rmSync(to);
  return null;
}

/** @returns how many rows the damaged file gave that the copy did not have */
function salvageInto(to: string, damagedFile: string): number {
  const target = openDatabase(to);
  try {
    migrate(target);
    if (!existsSync(damagedFile)) return 0;
    // A row is kept even when the one it refers to is lost.
    target.exec('PRAGMA foreign_keys = OFF');
    return salvage(damagedFile, target);
  } finally {
    target.close();
  }
}

function salvage(damagedFile: string, target: Database): number {
  let source: Database | null = null;
  try {
    source = openDatabaseReadOnly(damagedFile);
    const from = source;
    return inTransaction(target, () =>
      // From both ends: a broken page in the middle ends a walk, and the rows beyond it count too.
      TABLE_NAMES.reduce(
        (sum, table) =>
          sum + salvageTable(table, from, target, 'ASC') + salvageTable(table, from, target, 'DESC'),
        0,
      ),
    );
  } catch (error) {
    if (saysDamaged(error)) return 0;
    throw error;
  } finally {
    source?.close();
  }
}

function salvageTable(table: Table, source: Database, target: Database, order: 'ASC' | 'DESC'): number {
  let adopted = 0;
  try {
    const rows = source.prepare(`SELECT * FROM ${table} ORDER BY id ${order}`).iterate();
    for (const row of rows as Iterable<Row>) {
      if (isIntact(table, row) && adoptRow(target, table, row)) adopted += 1;
    }
  } catch {
    // From here on the table can't be read (a broken page, or no such table): what was read counts.
  }
  return adopted;
}
