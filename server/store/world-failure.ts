/** Failures of the world around the data file that pass by themselves or once a person acts. */
import type { DataFiles } from './data-folder.ts';
import { StoreError } from './errors.ts';
import { RESULT, resultCode } from './sqlite.ts';

const KEPT = 'Readings and trials are kept in memory meanwhile and saved by themselves afterwards.';

/** @returns what hinders saving and what to do, for a person; null when it is no such failure */
export function worldFailure(error: unknown, { database, folder }: DataFiles): string | null {
  if (error instanceof StoreError) {
    const passes = error.code === 'data-folder-unusable' || error.code === 'data-folder-in-use';
    return passes ? `${error.message} ${KEPT}` : null;
  }
  switch (resultCode(error)) {
    case RESULT.full:
      return `The disk with ${folder} is full: free some space. ${KEPT}`;
    case RESULT.busy:
    case RESULT.lockProtocol:
      return `Another program is writing to ${database}: close it. ${KEPT}`;
    case RESULT.readOnly:
    case RESULT.cannotOpen:
    case RESULT.ioError:
      return (
        `${folder} can't be written to (${(error as Error).message}): ` +
        `check that its drive is attached, writable and sound. ${KEPT}`
      );
    case null: // not raised by SQLite
    default:
      return null;
  }
}

export function fileGone({ database, folder }: DataFiles): StoreError {
  return new StoreError(
    'data-folder-unusable',
    `${database} is no longer there: attach its drive again, or put the file back into ${folder}.`,
  );
}

export function damagedFile({ database }: DataFiles, cause: unknown): StoreError {
  return new StoreError(
    'data-damaged',
    `The data file ${database} is damaged (${String(cause)}). Start the server with this folder: ` +
      'it keeps the damaged file and restores what can be restored.',
    { cause },
  );
}
