/**
 * The line guard: stands between a port's raw bytes and everything that reads text. It lets only
 * whole, clean, short lines through, so that whatever comes behind it needs no defence of its own.
 *
 * - A line holds printable ASCII (0x20 to 0x7E) and tab, nothing else.
 * - CR, LF and CR LF all end a line; each line that passes ends in one LF. Empty lines vanish.
 * - A line with any other byte is dropped whole: deleting the byte could fuse what stood around it
 *   into a plausible number.
 * - A line longer than LINE_LIMIT is dropped up to its end, which may never come.
 * - A line that has not ended yet is held back.
 *
 * The output depends on the bytes alone, never on how they were cut into chunks. Memory is bounded
 * by LINE_LIMIT, time is linear, nothing throws.
 */

/** The most bytes a line may have, its end not counted. */
export const LINE_LIMIT = 256;

const LF = 0x0a;
const CR = 0x0d;
const TAB = 0x09;
const SPACE = 0x20;
const TILDE = 0x7e;

/** Why a line was dropped; both are fault kinds. */
export type DropReason = 'tooLong' | 'malformed';

export interface Dropped {
  readonly fault: DropReason;
  readonly count: number;
}

export interface LineGuard {
  /** The clean lines that `chunk` ends, each with one LF. The bytes are the caller's to keep. */
  push(chunk: Uint8Array): Uint8Array;
  /** What was dropped since the last call; empty when nothing was. */
  takeDropped(): readonly Dropped[];
}

const NOTHING_DROPPED: readonly Dropped[] = [];

/** A guard for one connection. */
export function createLineGuard(): LineGuard {
  const held = new Uint8Array(LINE_LIMIT);
  let heldCount = 0;
  let dropping = false;
  const dropped = { tooLong: 0, malformed: 0 };

  function push(chunk: Uint8Array): Uint8Array {
    const out = new Uint8Array(heldCount + chunk.length);
    out.set(held.subarray(0, heldCount));
    let isDropping = dropping;
    let start = 0;
    let end = heldCount;
    for (let i = 0; i < chunk.length; i += 1) {
      const byte = chunk[i] as number;
      const isClean = (byte >= SPACE && byte <= TILDE) || byte === TAB;
      if (isClean && !isDropping && end - start < LINE_LIMIT) {
        out[end++] = byte;
      } else if (byte === LF || byte === CR) {
        isDropping = false;
        if (end > start) out[end++] = LF;
        start = end;
      } else if (!isDropping) {
        dropped[isClean ? 'tooLong' : 'malformed'] += 1;
        isDropping = true;
        end = start;
      }
    }
    dropping = isDropping;
    held.set(out.subarray(start, end));
    heldCount = end - start;
    return out.subarray(0, start);
  }

  function takeDropped(): readonly Dropped[] {
    const { tooLong, malformed } = dropped;
    if (tooLong + malformed === 0) return NOTHING_DROPPED;
    dropped.tooLong = 0;
    dropped.malformed = 0;
    const all: Dropped[] = [
      { fault: 'tooLong', count: tooLong },
      { fault: 'malformed', count: malformed },
    ];
    return all.filter(({ count }) => count > 0);
  }

  return { push, takeDropped };
}
