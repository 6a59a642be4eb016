/**
 * The data lines of plain lines: one number per column. Read character by character and without
 * allocating, since a fast board sends thousands a second.
 */
import { readNumber } from './number.ts';
import type { Separator } from './plain-header.ts';

const TAB = 0x09;
const BLANK = 0x20;

/** Instead of a number of fields: a wanted field holds neither a number nor a missing one. */
export const NOT_NUMBERS = -1;

/** What boards print for a reading that they don't have; `ovf` is too large for a small board. */
const MISSING_WORD = /^[-+]?(?:nan|inf|infinity|ovf)$/i;

/**
 * Reads the fields of a line. Field i is stored in `values[i]` where `wanted[i]` is set, `NaN` for
 * a missing reading (nan, inf, ovf, nothing, or too large for a double); other fields are passed
 * over unread. Returns how many fields the line has, or NOT_NUMBERS.
 */
export function readFields(
  text: string,
  separator: Separator,
  wanted: Uint8Array,
  values: Float64Array,
): number {
  const { length } = text;
  const between = separator.charCodeAt(0);
  let position = skipBlanks(text, 0, between);
  for (let field = 0; ; field += 1) {
    position =
      wanted[field] === 1
        ? readField(text, position, between, values, field)
        : endOfField(text, position, between);
    if (position < 0) return NOT_NUMBERS;
    const next = skipBlanks(text, position, between);
    if (next >= length) return field + 1;
    if (between === BLANK) {
      if (next === position) return NOT_NUMBERS;
      position = next;
    } else {
      if (text.charCodeAt(next) !== between) return NOT_NUMBERS;
      position = skipBlanks(text, next + 1, between);
    }
  }
}

/** Returns the position after the field's last character, or -1. */
function readField(
  text: string,
  from: number,
  between: number,
  values: Float64Array,
  at: number,
): number {
  const end = readNumber(text, from, values, at);
  if (end >= 0) {
    if (!Number.isFinite(values[at])) values[at] = Number.NaN;
    return end;
  }
  return readMissing(text, from, between, values, at);
}

function readMissing(
  text: string,
  from: number,
  between: number,
  values: Float64Array,
  at: number,
): number {
  const end = endOfField(text, from, between);
  const field = text.slice(from, end).trim();
  values[at] = Number.NaN;
  return field === '' || MISSING_WORD.test(field) ? end : -1;
}

function endOfField(text: string, from: number, between: number): number {
  const { length } = text;
  let position = from;
  while (position < length) {
    const code = text.charCodeAt(position);
    if (code === between || (between === BLANK && code === TAB)) return position;
    position += 1;
  }
  return length;
}

function skipBlanks(text: string, from: number, between: number): number {
  const { length } = text;
  let position = from;
  while (position < length) {
    const code = text.charCodeAt(position);
    if (code !== BLANK && (code !== TAB || between === TAB)) break;
    position += 1;
  }
  return position;
}

/** The most fields that a line of unknown make is looked at for. */
const MOST_FIELDS = 128;
const EVERY_FIELD = new Uint8Array(MOST_FIELDS).fill(1);

/** How many fields a line has that holds only numbers, some of them missing; else null. */
export function countNumbers(text: string, separator: Separator): number | null {
  const values = new Float64Array(MOST_FIELDS);
  const count = readFields(text, separator, EVERY_FIELD, values);
  if (count === NOT_NUMBERS || count > MOST_FIELDS) return null;
  return values.subarray(0, count).every(Number.isNaN) ? null : count;
}

/**
 * True when a line seems to hold a decimal comma. Such lines are refused: `1,234` may be one and a
 * bit or one thousand and some, and guessing would be wrong for one of them.
 */
export function seemsDecimalComma(text: string): boolean {
  return /(?:^|[;\t ])[-+]?\d+,\d+(?:[;\t ]|$)/.test(text);
}
