/**
 * Reads a zip archive (PKWARE APPNOTE 6.3) that anybody may have made: by its central directory,
 * with limits, one piece in memory at a time. Nothing is ever written by a name that stands in it.
 */
import { closeSync, fstatSync, openSync, readSync } from 'node:fs';
import { crc32 } from 'node:zlib';
import { Inflate } from 'fflate';
import { FileError } from './errors.ts';

export interface ZipIn {
  /** Whether there is a file of this name. */
  has(name: string): boolean;
  /**
   * The file's bytes, piece by piece.
   * @throws FileError `file-not-session` without it, `file-damaged`, `file-too-large`
   */
  read(name: string, limit_bytes: number): Generator<Uint8Array>;
  close(): void;
}

interface Entry {
  readonly method: number;
  readonly crc: number;
  readonly packed_bytes: number;
  readonly bytes: number;
  readonly headerAt: number;
}

const END_SIGNATURE = 0x06054b50;
const ENTRY_SIGNATURE = 0x02014b50;
const LOCAL_SIGNATURE = 0x04034b50;
const END_bytes = 22;
const ENTRY_bytes = 46;
const LOCAL_bytes = 30;
const LONGEST_COMMENT_bytes = 0xffff;
const MOST_ENTRIES = 2000;
const LARGEST_DIRECTORY_bytes = 1024 * 1024;
const ENCRYPTED = 1;
const STORED = 0;
const DEFLATED = 8;
/** So little packed is unpacked at once that a bomb can't fill the memory: at most 1032 times it. */
const PIECE_bytes = 16 * 1024;

/** @throws FileError `file-missing`, `file-unusable`, `file-not-session`, `file-damaged` */
export function openZip(path: string): ZipIn {
  const file = open(path);
  try {
    const size = fstatSync(file).size;
    const entries = readDirectory(file, size);
    return {
      has: (name) => entries.has(name),
      read: (name, limit_bytes) => {
        return readEntry(file, entries.get(name) ?? lacking(name), name, limit_bytes);
      },
      close: () => closeSync(file),
    };
  } catch (error) {
    closeSync(file);
    throw error;
  }
}

function open(path: string): number {
  try {
    return openSync(path, 'r');
  } catch (error) {
    const isMissing = error instanceof Error && 'code' in error && error.code === 'ENOENT';
    if (isMissing) throw new FileError('file-missing', `There is no file ${path}. Check its name and folder.`);
    throw new FileError('file-unusable', `${path} can't be read (${(error as Error).message}).`, { cause: error });
  }
}

function lacking(name: string): never {
  throw new FileError('file-not-session', `There is no ${name} in it: it is not a session's file. Choose one that Stillmark has saved.`);
}

function readDirectory(file: number, size: number): Map<string, Entry> {
  const tail_bytes = Math.min(size, END_bytes + LONGEST_COMMENT_bytes);
  const end = findEnd(bytesAt(file, size - tail_bytes, tail_bytes));
  const count = end.readUInt16LE(10);
  const length = end.readUInt32LE(12);
  const offset = end.readUInt32LE(16);
  if (count > MOST_ENTRIES || length > LARGEST_DIRECTORY_bytes) {
    throw new FileError('file-too-large', 'There are more files in it than in any session. Choose one that Stillmark has saved.');
  }
  const directory = bytesAt(file, offset, length);
  const entries = new Map<string, Entry>();
  let at = 0;
  for (let number = 0; number < count; number++) {
    if (at + ENTRY_bytes > directory.length) throw cutOff();
    if (directory.readUInt32LE(at) !== ENTRY_SIGNATURE) throw cutOff();
    const nameLength = directory.readUInt16LE(at + 28);
    const name = directory.toString('utf8', at + ENTRY_bytes, at + ENTRY_bytes + nameLength);
    // Two of one name: nobody could say which is meant.
    if (entries.has(name)) throw damaged(`${name} is in it twice`);
    if ((directory.readUInt16LE(at + 8) & ENCRYPTED) !== 0) {
      throw new FileError('file-not-session', 'It is encrypted. Unpack it, and choose the file that is inside.');
    }
    entries.set(name, {
      method: directory.readUInt16LE(at + 10),
      crc: directory.readUInt32LE(at + 16),
      packed_bytes: directory.readUInt32LE(at + 20),
      bytes: directory.readUInt32LE(at + 24),
      headerAt: directory.readUInt32LE(at + 42),
    });
    const restLength = directory.readUInt16LE(at + 30) + directory.readUInt16LE(at + 32);
    at += ENTRY_bytes + nameLength + restLength;
  }
  return entries;
}

/** The end record: the last thing in the file but for a comment, which we never write. */
function findEnd(tail: Buffer): Buffer {
  for (let at = tail.length - END_bytes; at >= 0; at--) {
    if (tail.readUInt32LE(at) === END_SIGNATURE) return tail.subarray(at);
  }
  if (tail.length === 0) throw new FileError('file-not-session', 'The file is empty. Choose one that Stillmark has saved.');
  throw new FileError('file-not-session', 'It is not a zip archive, or its end is missing. Choose a file that Stillmark has saved, and copy it whole.');
}

function* readEntry(
  file: number,
  entry: Entry,
  name: string,
  limit_bytes: number,
): Generator<Uint8Array> {
  const local = bytesAt(file, entry.headerAt, LOCAL_bytes);
  if (local.length < LOCAL_bytes) throw cutOff();
  if (local.readUInt32LE(0) !== LOCAL_SIGNATURE) throw cutOff();
  const start = entry.headerAt + LOCAL_bytes + local.readUInt16LE(26) + local.readUInt16LE(28);
  let crc = 0;
  let count_bytes = 0;
  for (const piece of unpacked(file, entry, start)) {
    count_bytes += piece.length;
    if (count_bytes > limit_bytes) {
      throw new FileError('file-too-large', `${name} unpacks to more than ${Math.round(limit_bytes / 2 ** 20)} MB, more than any lesson holds. It is not taken in.`);
    }
    crc = crc32(piece, crc);
    yield piece;
  }
  if (count_bytes !== entry.bytes || crc !== entry.crc) throw damaged(`${name} is not what was written`);
}

function* unpacked(
  file: number,
  { method, packed_bytes }: Entry,
  start: number,
): Generator<Uint8Array> {
  if (method !== STORED && method !== DEFLATED) throw damaged('it is packed in a way that Stillmark never uses');
  const out: Uint8Array[] = [];
  const inflate = new Inflate((piece) => void out.push(piece));
  for (let at = 0; at < packed_bytes; at += PIECE_bytes) {
    const length = Math.min(PIECE_bytes, packed_bytes - at);
    const piece = bytesAt(file, start + at, length);
    if (piece.length < length) throw cutOff();
    if (method === STORED) {
      yield piece;
      continue;
    }
    try {
      inflate.push(piece, at + length === packed_bytes);
    } catch (error) {
      throw damaged('it does not unpack', error);
    }
    yield* out.splice(0);
  }
}

/** As many bytes as there are, at most `length`. */
function bytesAt(file: number, position: number, length: number): Buffer {
  const bytes = Buffer.alloc(length);
  let count = 0;
  while (count < length) {
    const got = readSync(file, bytes, count, length - count, position + count);
    if (got === 0) break;
    count += got;
  }
  return bytes.subarray(0, count);
}

function cutOff(): FileError {
  return damaged('parts of it are missing');
}

function damaged(what: string, cause?: unknown): FileError {
  return new FileError('file-damaged', `The file is damaged: ${what}. Copy it anew from where it was saved.`, { cause });
}
