/**
 * The number grammar of plain lines and of the decimal fields in Stillmark lines.
 *
 *   number = ["+"|"-"] (digits ["." digits] | "." digits) [("e"|"E") ["+"|"-"] digits]
 *
 * A decimal point only; no blanks, no thousands separators, no hexadecimal, nothing around it.
 * `5.` is refused: it is what a number looks like whose line was cut off.
 */

const PLUS = 0x2b;
const MINUS = 0x2d;
const POINT = 0x2e;
const ZERO = 0x30;
const NINE = 0x39;
const UPPER_E = 0x45;
const LOWER_E = 0x65;

/** 10⁰ … 10²²: the powers of ten that a double holds exactly. */
const POWERS_OF_TEN = Float64Array.from({ length: 23 }, (_, exponent) => Number(`1e${exponent}`));
const LARGEST_EXACT_POWER = 22;
/** Every whole number below this has at most 15 digits, hence is exact. */
const EXACT_BELOW = 1e15;
/** An exponent beyond this changes nothing: the value is 0 or infinite long before. */
const EXPONENT_CAP = 100_000;

/**
 * Reads the number that begins at `from`, stores its value in `into[at]` and returns the position
 * after its last character, or -1 when no number stands there. What follows is for the caller to
 * judge.
 *
 * The value is that of `Number()` on the same characters, to the last bit: mantissa and power of
 * ten are both exact below 10^15 and up to 10^22, so one division or multiplication rounds once,
 * correctly (W. D. Clinger, "How to read floating point numbers accurately", PLDI 1990); all else
 * is left to `Number()`.
 */
export function readNumber(text: string, from: number, into: Float64Array, at: number): number {
  const { length } = text;
  let position = from;
  let code = position < length ? text.charCodeAt(position) : 0;
  const isNegative = code === MINUS;
  if (isNegative || code === PLUS) {
    position += 1;
    code = position < length ? text.charCodeAt(position) : 0;
  }
  const start = position;
  let mantissa = 0;
  while (code >= ZERO && code <= NINE) {
    mantissa = mantissa * 10 + (code - ZERO);
    position += 1;
    code = position < length ? text.charCodeAt(position) : 0;
  }
  let power = 0;
  if (code === POINT) {
    const point = position;
    position += 1;
    code = position < length ? text.charCodeAt(position) : 0;
    while (code >= ZERO && code <= NINE) {
      mantissa = mantissa * 10 + (code - ZERO);
      position += 1;
      code = position < length ? text.charCodeAt(position) : 0;
    }
    power = point + 1 - position;
    if (power === 0) return -1;
  } else if (position === start) {
    return -1;
  }
  if (code === LOWER_E || code === UPPER_E) {
    const end = endOfExponent(text, position + 1);
    if (end < 0) return -1;
    power += exponentOf(text, position + 1, end);
    position = end;
  }
  const magnitude = scaled(mantissa, power) ?? Number(text.slice(start, position));
  into[at] = isNegative ? -magnitude : magnitude;
  return position;
}

/** mantissa · 10^power where that is provably correctly rounded, else null. */
function scaled(mantissa: number, power: number): number | null {
  if (mantissa >= EXACT_BELOW) return null;
  if (power === 0) return mantissa;
  if (power < 0) {
    return power >= -LARGEST_EXACT_POWER ? mantissa / (POWERS_OF_TEN[-power] as number) : null;
  }
  return power <= LARGEST_EXACT_POWER ? mantissa * (POWERS_OF_TEN[power] as number) : null;
}

function endOfExponent(text: string, from: number): number {
  const code = text.charCodeAt(from);
  const start = code === PLUS || code === MINUS ? from + 1 : from;
  let end = start;
  while (isDigit(text.charCodeAt(end))) end += 1;
  return end > start ? end : -1;
}

function exponentOf(text: string, from: number, end: number): number {
  return Math.max(-EXPONENT_CAP, Math.min(EXPONENT_CAP, Number(text.slice(from, end))));
}

function isDigit(code: number): boolean {
  return code >= ZERO && code <= NINE;
}

/** The whole text as a number; null when it is not one in this grammar, or not a finite one. */
export function parseNumber(text: string): number | null {
  const value = new Float64Array(1);
  const isWhole = readNumber(text, 0, value, 0) === text.length;
  const [number = Number.NaN] = value;
  return isWhole && Number.isFinite(number) ? number : null;
}
