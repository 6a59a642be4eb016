/** The data folder as its one server holds it: locked, sound, up to date. */
import { existsSync, statSync } from 'node:fs';
import type { Notice } from '#core/events.ts';
import { prepareDataFolder, unusableFolder, type DataFiles } from './data-folder.ts';
import { StoreError } from './errors.ts';
import { takeLock } from './lock.ts';
import { networkFolderNotice } from './mounts.ts';
import { findDamagedRows, isSound, restore } from './repair.ts';
import { migrate, refuseNewer } from './schema.ts';
import { openDatabase, RESULT, resultCode, saysDamaged, type Database } from './sqlite.ts';
import { TABLE_NAMES } from './tables.ts';

/** Input is by far the most, and not needed to go on: it is checked later, aside (upkeep.ts). */
const CHECKED_ON_OPENING = TABLE_NAMES.filter((table) => table !== 'input_chunk');

export interface OpenFolder {
  readonly database: Database;
  readonly problems: readonly Notice[];
  /** False when the file was removed or replaced, or its drive detached, since it was opened. */
  isInPlace(): boolean;
  close(): void;
}

/**
 * @param knownDamaged SQLite has met damage: restore the file whatever a check of it says
 * @throws StoreError when another server has it, or it can't be used
 */
export function openFolder(files: DataFiles, knownDamaged = false): OpenFolder {
  prepareDataFolder(files.folder);
  const lock = takeLock(files);
  try {
    const problems: Notice[] = [];
    const database = openSound(files, knownDamaged, problems);
    const network = networkFolderNotice(files.folder);
    if (network !== null) problems.push(network);
    const opened = identity(files.database);
    const isInPlace = (): boolean => identity(files.database) === opened;
    return {
      database,
      problems,
      isInPlace,
      close: () => {
        if (isInPlace()) leaveOneFile(database);
        database.close();
        lock.release();
      },
    };
  } catch (error) {
    lock.release();
    throw explained(error, files);
  }
}

function explained(error: unknown, files: DataFiles): StoreError {
  if (error instanceof StoreError) return error;
  if (resultCode(error) !== RESULT.busy) return unusableFolder(files.folder, error);
  return new StoreError(
    'data-folder-in-use',
    `Another program is using ${files.database}. Let it finish, and start again.`,
  );
}

/** Restores a damaged file once; tells of it and of damaged rows in `problems`. */
function openSound(files: DataFiles, knownDamaged: boolean, problems: Notice[]): Database {
  let database = knownDamaged ? null : openChecked(files);
  if (database === null) {
    problems.push(restore(files, new Date()));
    database = openChecked(files);
  }
  if (database === null) throw new Error('it was restored, and is damaged again');
  problems.push(...findDamagedRows(database, CHECKED_ON_OPENING));
  return database;
}

/** @returns null when the file is damaged, or gone while a copy of it is there */
function openChecked(files: DataFiles): Database | null {
  if (isEmptied(files)) return null;
  const database = openDatabase(files.database);
  try {
    configure(database);
    if (isSound(database)) {
      refuseNewer(database, files.database);
      migrate(database);
      return database;
    }
  } catch (error) {
    database.close();
    if (saysDamaged(error)) return null;
    throw error;
  }
  database.close();
  return null;
}

/** An empty file is sound to SQLite; beside a copy it means that the data went missing. */
function isEmptied({ database, copy }: DataFiles): boolean {
  return existsSync(copy) && (statSync(database, { throwIfNoEntry: false })?.size ?? 0) === 0;
}

function configure(database: Database): void {
  database.exec(`
    PRAGMA temp_store = MEMORY;
    PRAGMA busy_timeout = 5000; -- a reader may be at the file as it was left
    PRAGMA journal_mode = WAL;
    PRAGMA busy_timeout = 1000;
    PRAGMA synchronous = FULL;
    PRAGMA fullfsync = ON;
    PRAGMA checkpoint_fullfsync = ON;
    PRAGMA journal_size_limit = 16777216;
    PRAGMA foreign_keys = ON;
  `);
}

/** Takes the write-ahead log into the file, so that the folder can be carried elsewhere as it is. */
function leaveOneFile(database: Database): void {
  try {
    database.exec('PRAGMA journal_mode = DELETE');
  } catch {
    // A reader or a full disk is in the way: the log stays beside the file, and nothing is lost.
  }
}

/** Which file this is; null when there is none, or its drive does not answer. */
function identity(path: string): string | null {
  try {
    const { dev, ino } = statSync(path, { bigint: true });
    return `${dev}:${ino}`;
  } catch {
    return null;
  }
}
