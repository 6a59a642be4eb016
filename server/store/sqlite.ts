/**
 * SQLite through the interface of `node:sqlite`: built into Node from 22.13 on, and from a package
 * with the same interface on Node 20. Nothing else in the project names either.
 */
import { createRequire, isBuiltin } from 'node:module';

/** The part of the interface that is used here; what came later (options, `backup`, …) is left. */
interface Connection {
  exec(sql: string): void;
  prepare(sql: string): Statement;
  close(): void;
}

interface Statement {
  run(...parameters: readonly Cell[]): { readonly changes: number | bigint };
  get(...parameters: readonly Cell[]): unknown;
  all(...parameters: readonly Cell[]): unknown[];
  iterate(...parameters: readonly Cell[]): Iterable<unknown>;
}

interface Sqlite {
  readonly DatabaseSync: new (path: string | URL, options: { readOnly: boolean }) => Connection;
}

/** What a column can hold here. */
export type Cell = string | number | Uint8Array;
/** A row as it was read: columns by name, not yet checked by a schema. */
export type Row = Readonly<Record<string, unknown>>;

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

/** A connection that keeps the statements it has prepared. */
export class Database {
  readonly #connection: Connection;
  readonly #statements = new Map<string, Statement>();

  constructor(path: string | URL, options: { readonly readOnly: boolean }) {
    this.#connection = new DatabaseSync(path, options);
  }

  /** Runs any number of statements that answer nothing. */
  exec(sql: string): void {
    this.#connection.exec(sql);
  }

  /** @returns how many rows it changed */
  run(sql: string, ...parameters: readonly Cell[]): number {
    return Number(this.#prepare(sql).run(...parameters).changes);
  }

  get(sql: string, ...parameters: readonly Cell[]): Row | undefined {
    return this.#prepare(sql).get(...parameters) as Row | undefined;
  }

  all(sql: string, ...parameters: readonly Cell[]): Row[] {
    return this.#prepare(sql).all(...parameters) as Row[];
  }

  /** One row in memory at a time. Finish before asking the same again. */
  iterate(sql: string, ...parameters: readonly Cell[]): Iterable<Row> {
    return this.#prepare(sql).iterate(...parameters) as Iterable<Row>;
  }

  /**
   * Ends its use. With the package for Node 20 the file stays open underneath until the garbage
   * collector has found every statement that was asked (`exec` leaves none behind), or the thread
   * ends: on Windows it can't be renamed before.
   */
  close(): void {
    this.#connection.close();
  }

  #prepare(sql: string): Statement {
    let statement = this.#statements.get(sql);
    if (statement === undefined) {
      statement = this.#connection.prepare(sql);
      this.#statements.set(sql, statement);
    }
    return statement;
  }
}

export function openDatabase(path: string): Database {
  return new Database(path, { readOnly: false });
}

/** A file named with `?immutable=1` is read without any locking. */
export function openDatabaseReadOnly(path: string | URL): Database {
  return new Database(path, { readOnly: true });
}

/** SQLite's primary result codes that are told apart here (https://sqlite.org/rescode.html). */
export const RESULT = {
  unspecified: 1,
  busy: 5,
  readOnly: 8,
  ioError: 10,
  corrupt: 11,
  full: 13,
  cannotOpen: 14,
  lockProtocol: 15,
  constraint: 19,
  mismatch: 20,
  notADatabase: 26,
} as const;

/** The primary result code of an error that SQLite raised, null for any other error. */
export function resultCode(error: unknown): number | null {
  if (!(error instanceof Error) || !('code' in error) || error.code !== 'ERR_SQLITE_ERROR') return null;
  // The package for Node 20 leaves the code out when a walk over rows fails.
  const given = 'errcode' in error ? error.errcode : undefined;
  return typeof given === 'number' ? given & 0xff : RESULT.unspecified;
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
