/** Where the data live: the folder, and the files in it. */
import { accessSync, constants, existsSync, mkdirSync, statSync } from 'node:fs';
import { homedir } from 'node:os';
import { dirname, posix, join, resolve, win32 } from 'node:path';
import { StoreError } from './errors.ts';

export interface DataFiles {
  readonly folder: string;
  /** Everything: sessions, recorded input, trials. SQLite keeps `-wal` and `-shm` beside it. */
  readonly database: string;
  /** A copy of it, made now and then while the server runs. */
  readonly copy: string;
  /** Held locked by the server that uses the folder. */
  readonly lock: string;
}

export function dataFiles(dataFolder: string): DataFiles {
  const folder = resolve(dataFolder);
  return {
    folder,
    database: join(folder, 'stillmark.sqlite'),
    copy: join(folder, 'stillmark-copy.sqlite'),
    lock: join(folder, 'stillmark.lock'),
  };
}

/**
 * Where the operating system wants a program's data of one user: the XDG Base Directory
 * Specification 0.8 on Linux, `Application Support` on macOS, the local (not roaming) application
 * data on Windows.
 */
export function defaultDataFolder(
  platform: NodeJS.Platform = process.platform,
  environment: Readonly<Record<string, string | undefined>> = process.env,
  home: string = homedir(),
): string {
  if (platform === 'win32') {
    const local = environment['LOCALAPPDATA'] || win32.join(home, 'AppData', 'Local');
    return win32.join(local, 'Stillmark');
  }
  if (platform === 'darwin') return posix.join(home, 'Library', 'Application Support', 'Stillmark');
  const base = environment['XDG_DATA_HOME'];
  // The specification: a relative path in it is to be ignored.
  return posix.join(base?.startsWith('/') ? base : posix.join(home, '.local', 'share'), 'stillmark');
}

/**
 * Makes the folder where it is missing.
 * @throws StoreError `data-folder-unusable`
 */
export function prepareDataFolder(folder: string): void {
  try {
    makeFolder(folder);
    accessSync(folder, constants.R_OK | constants.W_OK | constants.X_OK);
  } catch (error) {
    throw unusableFolder(folder, error);
  }
}

/**
 * Node's own recursive way never ends where a folder exists in which none can be made (/proc on
 * Linux), because the system says there that the parent is missing.
 */
function makeFolder(folder: string): void {
  const parent = dirname(folder);
  if (!existsSync(parent) && parent !== folder) makeFolder(parent);
  try {
    mkdirSync(folder);
  } catch (error) {
    if (!isFolder(folder)) throw error;
  }
}

function isFolder(path: string): boolean {
  return statSync(path, { throwIfNoEntry: false })?.isDirectory() ?? false;
}

export function unusableFolder(folder: string, cause: unknown): StoreError {
  const reason = cause instanceof Error ? cause.message : String(cause);
  return new StoreError(
    'data-folder-unusable',
    `The data folder ${folder} can't be used (${reason}). ` +
      'Make sure that it is a folder you may write to and that its disk has room, ' +
      'or choose another one with --data.',
    { cause },
  );
}
