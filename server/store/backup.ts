/** A copy of the data file, made while the server writes on. */
import { renameSync, rmSync, statfsSync, statSync } from 'node:fs';
import type { DataFiles } from './data-folder.ts';
import { flushFile } from './flush-file.ts';
import { openDatabaseReadOnly } from './sqlite.ts';

/**
 * Replaces the folder's copy by one of now. Reads as any reader does: the writer is not held up.
 * @returns why there is no new copy, null when there is one
 */
export function makeBackup(files: DataFiles): string | null {
  const partial = `${files.backup}.partial`;
  try {
    if (isUpToDate(files)) return null;
    rmSync(partial, { force: true });
    const { bavail, bsize } = statfsSync(files.folder);
    // A copy must not be what fills the disk for the trials.
    if (bavail * bsize < 2 * statSync(files.database).size) return 'the disk has too little room';
    copyInto(files.database, partial);
    flushFile(partial);
    renameSync(partial, files.backup);
    return null;
  } catch (error) {
    rmSync(partial, { force: true });
    return error instanceof Error ? error.message : String(error);
  }
}

function copyInto(from: string, to: string): void {
  const database = openDatabaseReadOnly(from);
  try {
    // Row by row (https://sqlite.org/lang_vacuum.html), so that broken structure is never copied.
    database.prepare('VACUUM INTO ?').run(to);
  } finally {
    database.close();
  }
}

function isUpToDate({ database, backup }: DataFiles): boolean {
  const modified_ms = (path: string): number => statSync(path, { throwIfNoEntry: false })?.mtimeMs ?? 0;
  return modified_ms(backup) > Math.max(modified_ms(database), modified_ms(`${database}-wal`));
}
