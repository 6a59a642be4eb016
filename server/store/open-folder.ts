/** The data folder as its one server holds it: locked, sound, up to date. */
import { existsSync, statSync } from 'node:fs';
import type { Notice } from '#core/events.ts';
import { prepareDataFolder, unusableFolder, type DataFiles } from './data-folder.ts';
import { StoreError } from './errors.ts';
import { takeLock } from './lock.ts';
import { networkFolderNotice } from './mounts.ts';
import { findDamage, findDamagedRows, restore } from './repair.ts';
import { migrate, refuseNewer, schemaVersion } from './schema.ts';
import { openDatabase, saysDamaged, type Database } from './sqlite.ts';

export interface OpenFolder {
  readonly database: Database;
  readonly problems: readonly Notice[];
  /** False when the file was removed or replaced, or its drive detached, since it was opened. */
  isInPlace(): boolean;
  close(): void;
}

/** @throws StoreError when another server has it, or it can't be used */
export function openFolder(files: DataFiles): OpenFolder {
  prepareDataFolder(files.folder);
  const lock = takeLock(files);
  try {
    const problems: Notice[] = [];
    const database = openSound(files, problems);
    const network = networkFolderNotice(files.folder);
    if (network !== null) problems.push(network);
    const opened = identity(files.database);
    return {
      database,
      problems,
      isInPlace: () => identity(files.database) === opened,
      close: () => {
        database.close();
        lock.release();
      },
    };
  } catch (error) {
    lock.release();
    throw error instanceof StoreError ? error : unusableFolder(files.folder, error);
  }
}

/** Restores a damaged file once; tells of it and of damaged rows in `problems`. */
function openSound(files: DataFiles, problems: Notice[]): Database {
  const first = openChecked(files);
  if (typeof first !== 'string') {
    problems.push(...findDamagedRows(first));
    return first;
  }
  problems.push(restore(files, first, new Date()));
  const second = openChecked(files);
  if (typeof second === 'string') throw new Error(`restored, and damaged again: ${second}`);
  problems.push(...findDamagedRows(second));
  return second;
}

/** @returns the database, or what is wrong with it */
function openChecked(files: DataFiles): Database | string {
  const database = openDatabase(files.database);
  try {
    refuseNewer(database, files.database);
    configure(database);
    const damage = findDamage(database) ?? findEmptied(database, files);
    if (damage === null) {
      migrate(database);
      return database;
    }
    database.close();
    return damage;
  } catch (error) {
    database.close();
    if (saysDamaged(error)) return (error as Error).message;
    throw error;
  }
}

/** An empty file is sound to SQLite; beside a copy it means that the data went missing. */
function findEmptied(database: Database, files: DataFiles): string | null {
  return schemaVersion(database) === 0 && existsSync(files.backup) ? 'it is empty or missing' : null;
}

function configure(database: Database): void {
  database.exec(`
    PRAGMA busy_timeout = 1000;
    PRAGMA journal_mode = WAL;
    PRAGMA synchronous = FULL;
    PRAGMA fullfsync = ON;
    PRAGMA checkpoint_fullfsync = ON;
    PRAGMA journal_size_limit = 16777216;
    PRAGMA foreign_keys = ON;
  `);
}

function identity(path: string): string | null {
  const stat = statSync(path, { bigint: true, throwIfNoEntry: false });
  return stat === undefined ? null : `${stat.dev}:${stat.ino}`;
}
