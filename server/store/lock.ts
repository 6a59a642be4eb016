/** One server for each data folder. */
import { unusableFolder, type DataFiles } from './data-folder.ts';
import { StoreError } from './errors.ts';
import { openDatabase, RESULT, resultCode, type Database } from './sqlite.ts';

export interface Lock {
  release(): void;
}

/**
 * Takes the folder's lock: an exclusive SQLite transaction held open on an empty file of its own.
 * It is a lock of the operating system, so that it goes with the process however that ends.
 * (Never open the lock file by other means: on POSIX systems closing it would drop the lock.)
 * @throws StoreError `data-folder-in-use` or `data-folder-unusable`
 */
export function takeLock({ lock, folder }: DataFiles): Lock {
  let database: Database | null = null;
  try {
    database = openDatabase(lock);
    database.exec('PRAGMA journal_mode = MEMORY; BEGIN EXCLUSIVE');
  } catch (error) {
    database?.close();
    if (resultCode(error) !== RESULT.busy) throw unusableFolder(folder, error);
    throw new StoreError(
      'data-folder-in-use',
      `Another Stillmark is using the data folder ${folder}. ` +
        'Close that one, or choose another folder with --data.',
    );
  }
  const held = database;
  return { release: () => held.close() };
}
