/**
 * Looking after the data file while the server writes on. Reads as any reader does, on a thread of
 * its own: the writer is not held up.
 */
import { renameSync, rmSync, statfsSync, statSync } from 'node:fs';
import type { Notice } from '#core/events.ts';
import type { DataFiles } from './data-folder.ts';
import { flushFile } from './flush-file.ts';
import { findDamagedRows } from './repair.ts';
import { openDatabaseReadOnly } from './sqlite.ts';
import { TABLE_NAMES } from './tables.ts';

/** Damaged rows of every table. */
export function checkRows({ database: path }: DataFiles): Notice[] {
  const database = openDatabaseReadOnly(path);
  try {
    return findDamagedRows(database, TABLE_NAMES);
  } finally {
    database.close();
  }
}

/** Replaces the copy of the data file by one of now; says so when that does not work. */
export function makeCopy({ folder, database, copy }: DataFiles, room = freeRoom_bytes): Notice[] {
  const partial = `${copy}.partial`;
  try {
    rmSync(partial, { force: true });
    // A copy must not be what fills the disk for the trials.
    if (room(folder) < 2 * statSync(database).size) return [notCopied('the disk has too little room')];
    copyInto(database, partial);
    flushFile(partial);
    renameSync(partial, copy);
    return [];
  } catch (error) {
    rmSync(partial, { force: true });
    return [notCopied(String(error))];
  }
}

function freeRoom_bytes(folder: string): number {
  const { bavail, bsize } = statfsSync(folder);
  return bavail * bsize;
}

function copyInto(from: string, to: string): void {
  const database = openDatabaseReadOnly(from);
  try {
    // Row by row (https://sqlite.org/lang_vacuum.html), so that broken structure is never copied.
    database.run('VACUUM INTO ?', to);
  } finally {
    database.close();
  }
}

export function notCopied(reason: string): Notice {
  return {
    code: 'data-not-copied',
    message: `There is no new safety copy of the data file (${reason}); trials are saved all the same.`,
    about: [reason],
  };
}
