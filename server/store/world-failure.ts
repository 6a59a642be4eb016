/** Failures of the world around the data file that pass by themselves or once a person acts. */
import type { StoreState } from '#core/live-messages.ts';
import type { DataFiles } from './data-folder.ts';
import { StoreError } from './errors.ts';
import { RESULT, resultCode } from './sqlite.ts';

/** What hinders saving and what to do, for a person. */
export type Hindrance = Pick<StoreState, 'code' | 'about'> & { readonly message: string };

const KEPT = 'Readings and trials are kept in memory meanwhile and saved by themselves afterwards.';

/** @returns null when it is no such failure */
export function worldFailure(error: unknown, files: DataFiles): Hindrance | null {
  const { database, folder } = files;
  if (error instanceof StoreError) {
    const passes = error.code === 'data-folder-unusable' || error.code === 'data-folder-in-use';
    const about = error.code === 'data-folder-in-use' ? [folder] : [database, folder];
    return passes ? { code: error.code, message: `${error.message} ${KEPT}`, about } : null;
  }
  switch (resultCode(error)) {
    case RESULT.full:
      return {
        code: 'disk-full',
        message: `The disk with ${folder} is full: free some space. ${KEPT}`,
        about: [folder],
      };
    case RESULT.busy:
    case RESULT.lockProtocol:
      return {
        code: 'file-busy',
        message: `Another program is writing to ${database}: close it. ${KEPT}`,
        about: [database],
      };
    case RESULT.readOnly:
    case RESULT.cannotOpen:
    case RESULT.ioError:
      return {
        code: 'folder-unwritable',
        message:
          `${folder} can't be written to (${(error as Error).message}): ` +
          `check that its drive is attached, writable and sound. ${KEPT}`,
        about: [folder],
      };
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
