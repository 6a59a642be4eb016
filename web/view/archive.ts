/** One text out of a session's file, which is a zip archive. */
import { strFromU8, unzipSync } from 'fflate';

/** Larger files of a session are for the program itself to take in, under Sessions. */
export const LARGEST_ARCHIVE_bytes = 256 * 2 ** 20;

/** Null where there is none of that name, it is too long, or the file is no such archive. */
export function textInArchive(
  bytes: Uint8Array,
  wanted: string,
  most_bytes: number,
): string | null {
  try {
    const found = unzipSync(bytes, {
      filter: ({ name, originalSize }) => name === wanted && originalSize <= most_bytes,
    })[wanted];
    return found === undefined ? null : strFromU8(found);
  } catch {
    return null;
  }
}
