/**
 * Where a package is written: a folder, or one zip archive. The same session gives the same bytes:
 * the archive's dates are fixed, and its compressor is the same on every computer.
 */
import { createHash, type Hash } from 'node:crypto';
import {
  closeSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readdirSync,
  renameSync,
  rmSync,
  writeSync,
} from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { Zip, ZipDeflate } from 'fflate';
import { FileError } from './errors.ts';
import { fixedDate } from './fixed-date.ts';

/** One file of the package, as it ended. */
export interface WrittenFile {
  readonly bytes: number;
  /** As Data Package writes it: algorithm and hexadecimal digits. */
  readonly hash: string;
}

export interface PackageTarget {
  /** Writes one file whole; one piece in memory at a time. */
  write(name: string, pieces: Iterable<string | Uint8Array>): WrittenFile;
  /** Nothing is at the wanted place before this. */
  finish(): void;
  /** Gives up; nothing is left. */
  discard(): void;
}

/** @throws FileError `file-exists`, `file-unusable` */
export function packageTarget(path: string): PackageTarget {
  const to = resolve(path);
  try {
    return /\.zip$/i.test(to) ? zipTarget(to) : folderTarget(to);
  } catch (error) {
    throw unusable(to, error);
  }
}

function unusable(path: string, error: unknown): unknown {
  if (!(error instanceof Error && 'code' in error) || error instanceof FileError) return error;
  // The system's own are texts (ENOSPC); others have numbers, and are faults of ours.
  if (typeof error.code !== 'string') return error;
  return new FileError('file-unusable', `${path} can't be written (${error.message}). Choose another place for it.`, { cause: error });
}

function zipTarget(path: string): PackageTarget {
  if (existsSync(path)) {
    throw new FileError('file-exists', `${path} is there already. Choose another name, or move that file away.`);
  }
  mkdirSync(dirname(path), { recursive: true });
  const partial = `${path}.partial`;
  const file = openSync(partial, 'w');
  const zip = new Zip((error, chunk) => {
    if (error !== null) throw error;
    writeWhole(file, chunk);
  });
  return {
    write: (name, pieces) =>
      guarded(path, () => {
        const entry = new ZipDeflate(name, { level: 6 });
        entry.mtime = fixedDate();
        zip.add(entry);
        const written = pour(pieces, (bytes) => entry.push(bytes, false));
        entry.push(new Uint8Array(0), true);
        return written;
      }),
    finish: () =>
      guarded(path, () => {
        zip.end();
        fsyncSync(file);
        closeSync(file);
        renameSync(partial, path);
      }),
    discard: () => {
      closeSync(file);
      rmSync(partial, { force: true });
    },
  };
}

function folderTarget(path: string): PackageTarget {
  if (existsSync(path) && readdirSync(path).length > 0) {
    throw new FileError('file-exists', `The folder ${path} is not empty. Choose another one.`);
  }
  mkdirSync(path, { recursive: true });
  const names: string[] = [];
  return {
    write: (name, pieces) =>
      guarded(path, () => {
        names.push(name);
        const file = openSync(join(path, name), 'wx');
        try {
          return pour(pieces, (bytes) => writeWhole(file, bytes));
        } finally {
          closeSync(file);
        }
      }),
    finish: () => undefined,
    discard: () => {
      for (const name of names) rmSync(join(path, name), { force: true });
    },
  };
}

function guarded<T>(path: string, act: () => T): T {
  try {
    return act();
  } catch (error) {
    throw unusable(path, error);
  }
}

/** Small pieces are put together before they are passed on. */
const PIECE_bytes = 256 * 1024;

function pour(
  pieces: Iterable<string | Uint8Array>,
  pass: (bytes: Uint8Array) => void,
): WrittenFile {
  const hash = createHash('sha256');
  const count = { bytes: 0 };
  let text = '';
  for (const piece of pieces) {
    if (typeof piece === 'string') {
      text += piece;
      if (text.length < PIECE_bytes) continue;
    }
    passOn(text, hash, count, pass);
    text = '';
    if (typeof piece !== 'string') passOn(piece, hash, count, pass);
  }
  passOn(text, hash, count, pass);
  return { bytes: count.bytes, hash: `sha256:${hash.digest('hex')}` };
}

function passOn(
  piece: string | Uint8Array,
  hash: Hash,
  count: { bytes: number },
  pass: (bytes: Uint8Array) => void,
): void {
  if (piece.length === 0) return;
  const bytes = typeof piece === 'string' ? Buffer.from(piece, 'utf8') : piece;
  hash.update(bytes);
  count.bytes += bytes.length;
  pass(bytes);
}

function writeWhole(file: number, bytes: Uint8Array): void {
  for (let at = 0; at < bytes.length; ) at += writeSync(file, bytes, at);
}
