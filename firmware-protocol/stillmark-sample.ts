/**
 * The envelope `$…*HHHH` of Stillmark lines, and the sample line, which is read without allocating:
 * it is the only one that comes often.
 */
import { checksum } from './checksum.ts';
import { MOST_CHANNELS } from './frame.ts';

const DOLLAR = 0x24;
const STAR = 0x2a;
const COMMA = 0x2c;
const MINUS = 0x2d;
const ZERO = 0x30;
const NINE = 0x39;
const UPPER_A = 0x41;
const UPPER_F = 0x46;
const LOWER_S = 0x73;

/** `*` and four hexadecimal digits. */
const TAIL = 5;

export const LARGEST_U16 = 0xffff;
export const LARGEST_U32 = 0xffff_ffff;
export const LARGEST_I32 = 0x7fff_ffff;
export const SMALLEST_I32 = -0x8000_0000;

/** Instead of a number of channels. */
export const MALFORMED = -1;
export const WRONG_CHECKSUM = -2;

/** Where `readSample` stores what, in an array of SAMPLE_FIELDS. */
export const SEQUENCE_AT = 0;
export const TIME_AT = 1;
export const FIRST_COUNT_AT = 2;
export const SAMPLE_FIELDS = FIRST_COUNT_AT + MOST_CHANNELS;

/** A line that starts as only a Stillmark line does. */
export function startsLikeFrame(text: string): boolean {
  return text.charCodeAt(0) === DOLLAR;
}

/** A line that starts as only a sample line does. */
export function startsLikeSample(text: string): boolean {
  return (
    text.charCodeAt(0) === DOLLAR && text.charCodeAt(1) === LOWER_S && text.charCodeAt(2) === COMMA
  );
}

/** Where the body of an enveloped line ends (at its `*`), or MALFORMED, or WRONG_CHECKSUM. */
export function endOfBody(text: string): number {
  const end = text.length - TAIL;
  if (end < 1 || text.charCodeAt(0) !== DOLLAR || text.charCodeAt(end) !== STAR) return MALFORMED;
  let stated = 0;
  for (let position = end + 1; position < text.length; position += 1) {
    const digit = hexDigit(text.charCodeAt(position));
    if (digit < 0) return MALFORMED;
    stated = stated * 16 + digit;
  }
  return checksum(text, 1, end) === stated ? end : WRONG_CHECKSUM;
}

/** Upper case only: one spelling for each line. */
function hexDigit(code: number): number {
  if (code >= ZERO && code <= NINE) return code - ZERO;
  return code >= UPPER_A && code <= UPPER_F ? code - UPPER_A + 10 : -1;
}

/**
 * Reads a sample line (see `startsLikeSample`) into `into`: sequence, time, then the counts, NaN
 * for one that is missing. Returns how many channels it has, or MALFORMED, or WRONG_CHECKSUM.
 */
export function readSample(text: string, into: Float64Array): number {
  const end = endOfBody(text);
  if (end < 0) return end;
  let position = 2;
  let field = 0;
  while (position < end) {
    if (field === SAMPLE_FIELDS || text.charCodeAt(position) !== COMMA) return MALFORMED;
    position = readWhole(text, position + 1, end, into, field);
    if (position < 0) return MALFORMED;
    field += 1;
  }
  const isWhole = field > FIRST_COUNT_AT && isUnsigned(into[SEQUENCE_AT], LARGEST_U16);
  if (!isWhole || !isUnsigned(into[TIME_AT], LARGEST_U32)) return MALFORMED;
  for (let i = FIRST_COUNT_AT; i < field; i += 1) {
    const count = into[i] as number;
    if (count > LARGEST_I32 || count < SMALLEST_I32) return MALFORMED;
  }
  return field - FIRST_COUNT_AT;
}

function isUnsigned(value: number | undefined, largest: number): boolean {
  return value !== undefined && value >= 0 && value <= largest;
}

/** One whole number in its only spelling (no plus, no leading zero, no -0), or nothing. */
function readWhole(
  text: string,
  from: number,
  end: number,
  into: Float64Array,
  at: number,
): number {
  let position = from;
  const isNegative = text.charCodeAt(position) === MINUS;
  if (isNegative) position += 1;
  const start = position;
  let value = 0;
  while (position < end) {
    const code = text.charCodeAt(position);
    if (code < ZERO || code > NINE) break;
    value = value * 10 + (code - ZERO);
    position += 1;
  }
  const digits = position - start;
  if (digits === 0) {
    into[at] = Number.NaN;
    return isNegative ? -1 : position;
  }
  if (text.charCodeAt(start) === ZERO && (digits > 1 || isNegative)) return -1;
  into[at] = isNegative ? -value : value;
  return position;
}
