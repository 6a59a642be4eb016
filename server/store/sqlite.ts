/**
 * SQLite through the interface of `node:sqlite`: built into Node from 22.13 on, and from a package
 * with the same interface on Node 20. Nothing else in the project names either.
 */
import { createRequire, isBuiltin } from 'node:module';
import type { DatabaseSyncInstance } from '@photostructure/sqlite';

/** What both implementations have; options that came later (`timeout`, …) are left to pragmas. */
export type Database = Pick<DatabaseSyncInstance, 'close' | 'exec' | 'prepare'>;

interface Sqlite {
  readonly DatabaseSync: new (path: string | URL, options?: { readOnly?: boolean }) => Database;
}

// By `require`, so that bundlers and test runners leave the choice to Node at run time.
const nodeRequire = createRequire(import.meta.url);
const { DatabaseSync } = loadSqlite();

function loadSqlite(): Sqlite {
  if (!isBuiltin('node:sqlite')) return nodeRequire('@photostructure/sqlite') as Sqlite;
  // Some Node versions call it experimental on standard error, which tells a mentor nothing.
  const { emitWarning } = process;
  process.emitWarning = (warning: string | Error, ...rest: unknown[]) => {
    if (/SQLite is an experimental feature/.test(String(warning))) return;
    Reflect.apply(emitWarning, process, [warning, ...rest]);
  };
  try {
    return nodeRequire('node:sqlite') as Sqlite;
  } finally {
    process.emitWarning = emitWarning;
  }
}

export function openDatabase(path: string): Database {
  return new DatabaseSync(path);
}

/** Opens for reading only; a file with `immutable` set is read without any locking. */
export function openDatabaseReadOnly(path: string | URL): Database {
  return new DatabaseSync(path, { readOnly: true });
}

/** SQLite's primary result codes that are told apart here (https://sqlite.org/rescode.html). */
export const RESULT = {
  busy: 5,
  readOnly: 8,
  ioError: 10,
  corrupt: 11,
  full: 13,
  cannotOpen: 14,
  lockProtocol: 15,
  notADatabase: 26,
} as const;

/** The primary result code of an error that SQLite raised, null for any other error. */
export function resultCode(error: unknown): number | null {
  if (!(error instanceof Error) || !('errcode' in error)) return null;
  return typeof error.errcode === 'number' ? error.errcode & 0xff : null;
}

/** Whether SQLite says that the file itself is wrong, not the world around it. */
export function saysDamaged(error: unknown): boolean {
  const code = resultCode(error);
  return code === RESULT.corrupt || code === RESULT.notADatabase;
}

/** Runs `change` in one transaction: everything in it is on disk afterwards, or nothing. */
export function inTransaction<T>(database: Database, change: () => T): T {
  database.exec('BEGIN IMMEDIATE');
  try {
    const result = change();
    database.exec('COMMIT');
    return result;
  } catch (error) {
    rollBack(database);
    throw error;
  }
}

function rollBack(database: Database): void {
  try {
    database.exec('ROLLBACK');
  } catch {
    // SQLite has rolled back by itself already, as it does on a full disk.
  }
}
