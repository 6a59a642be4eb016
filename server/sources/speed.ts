/** Is a board read at the speed it sends with? Judged from the bytes, not from what lines mean. */

export const USUAL_SPEED_BD = 115_200;

/**
 * Speeds tried, the most common of sketches first. 1200 is not among them and is never opened:
 * on many boards it starts the boot loader, which then waits for a new program or erases the old.
 */
const SPEEDS_BD = [USUAL_SPEED_BD, 9_600, 57_600, 38_400, 19_200, 230_400, 250_000] as const;

const FORBIDDEN_SPEED_BD = 1_200;

/** @throws a coded error for 1200 and for what is no speed */
export function checkSpeed(speed_Bd: number): void {
  if (speed_Bd === FORBIDDEN_SPEED_BD) {
    throw new SpeedError('Speed 1200 is refused: on many boards it erases or stops the program. Use 115200 or 9600.');
  }
  if (!Number.isInteger(speed_Bd) || speed_Bd < 300 || speed_Bd > 4_000_000) {
    throw new SpeedError(`${speed_Bd} is not a line speed. Use what the sketch says, for instance 115200 or 9600.`);
  }
}

export class SpeedError extends Error {
  readonly code = 'bad-value';
}

/** Bytes that must have come before a judgement is worth anything. */
const ENOUGH_BYTES = 64;
/**
 * Share of bytes that are text below which the speed is wrong. Lines of numbers are all text;
 * of bytes without meaning 98 in 256 are.
 */
const TEXT_SHARE = 0.75;
/** A restarting board may greet at another speed; that lasts well under two looks. */
const LOOKS_BEFORE_SEARCH = 2;
/**
 * Looks in a row at text after which the speed is right for as long as the port stays open: what is
 * unreadable then is interference, and a search would lose the header that was sent once.
 */
const LOOKS_TO_PROVE = 2;

/** Watches one connection; `look` is to be called every two seconds or so. */
export interface SpeedWatch {
  count(chunk: Uint8Array): void;
  /** The speed to try next (in the end the first again), null when there is nothing to change. */
  look(): number | null;
}

export function createSpeedWatch(first_Bd: number): SpeedWatch {
  const untried = [...SPEEDS_BD.filter((speed_Bd) => speed_Bd !== first_Bd), first_Bd];
  let [bytes, text, misread, wellRead] = [0, 0, 0, 0];
  return {
    count(chunk) {
      bytes += chunk.length;
      for (const byte of chunk) if (isTextByte(byte)) text += 1;
    },
    look() {
      if (bytes < ENOUGH_BYTES) return null;
      const isText = text >= TEXT_SHARE * bytes;
      [bytes, text] = [0, 0];
      if (wellRead >= LOOKS_TO_PROVE) return null;
      misread = isText ? 0 : misread + 1;
      wellRead = isText ? wellRead + 1 : 0;
      if (misread < LOOKS_BEFORE_SEARCH) return null;
      misread = LOOKS_BEFORE_SEARCH - 1;
      return untried.shift() ?? null;
    },
  };
}

function isTextByte(byte: number): boolean {
  return (byte >= 0x20 && byte < 0x7f) || (byte >= 0x09 && byte <= 0x0d);
}
