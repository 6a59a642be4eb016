/**
 * Numbers as a person reads them: no digit that the uncertainty does not support.
 *
 * JCGM 100:2008 (GUM), 7.2.6: an uncertainty is given to at most two significant digits, and the
 * value is rounded to agree with it.
 */
import { studentTQuantile } from '../statistics/student-t.ts';

/** Stands for a value that is not there; never 0. */
export const NO_VALUE = '–';
/** Between a number and its unit (SI brochure, 5.4.3: a space; a thin one that does not break). */
export const UNIT_SPACE = '\u202f';

/** A decimal prefix of the SI; one is kept for a quantity through a session. */
export interface Prefix {
  readonly symbol: 'µ' | 'm' | '' | 'k';
  readonly exponent: -6 | -3 | 0 | 3;
}

const PREFIXES: readonly Prefix[] = [
  { symbol: 'k', exponent: 3 },
  { symbol: '', exponent: 0 },
  { symbol: 'm', exponent: -3 },
];
const SMALLEST_PREFIX: Prefix = { symbol: 'µ', exponent: -6 };

/** The prefix in which the largest value of a session has one to three digits before the point. */
export function prefixFor(largest: number): Prefix {
  return PREFIXES.find(({ exponent }) => Math.abs(largest) >= 10 ** exponent) ?? SMALLEST_PREFIX;
}

/** value · 10^-exponent, dividing by whole powers of ten so that no digit is spoilt. */
export function scaled(value: number, exponent: number): number {
  return exponent < 0 ? value * 10 ** -exponent : value / 10 ** exponent;
}

/**
 * U = k·u for a coverage of 95 %, with k from Student's t (GUM G.3.2).
 * @returns null when nothing is known of it (no u, no degrees of freedom, or u is not positive)
 */
export function expandedUncertainty(estimate: {
  readonly standardUncertainty: number | null;
  readonly degreesOfFreedom: number;
}): number | null {
  const { standardUncertainty, degreesOfFreedom } = estimate;
  if (standardUncertainty === null) return null;
  if (!(standardUncertainty > 0) || !(degreesOfFreedom > 0)) return null;
  const expanded = studentTQuantile(0.975, degreesOfFreedom) * standardUncertainty;
  return Number.isFinite(expanded) ? expanded : null;
}

/**
 * The power of ten of the last digit worth giving for this uncertainty.
 * short: one digit, two when the first is 1 or 2, where one digit would round too coarsely;
 * full: two digits, for comparisons and reports.
 * For instance 0.0284 gives -3 (0.028), 3.2 gives 0 (3).
 */
export function placeOf(uncertainty: number, digits: 'short' | 'full' = 'short'): number {
  const first = firstPlace(uncertainty);
  if (digits === 'full') return twoDigitPlace(uncertainty, first);
  const leading = Math.round(uncertainty / 10 ** first);
  if (leading >= 10) return first; // 9.6 becomes 10: two digits that begin with 1
  const rounded = Math.round((uncertainty / 10 ** first) * 10) / 10;
  return rounded < 3 ? first - 1 : first;
}

/** 9.96 becomes 10, whose two digits end one place higher. */
function twoDigitPlace(uncertainty: number, first: number): number {
  return Math.round((uncertainty / 10 ** first) * 10) >= 100 ? first : first - 1;
}

/** The power of ten of a number's first digit. */
export function firstPlace(value: number): number {
  const place = Math.floor(Math.log10(Math.abs(value)));
  // log10 of 1000 − ε may round up to 3.
  return Math.abs(value) < 10 ** place ? place - 1 : place;
}

/** A number rounded to a place (a power of ten) and written out, with a true minus sign. */
export function decimalAt(value: number, place: number): string {
  const text =
    place >= 0
      ? (Math.round(value / 10 ** place) * 10 ** place).toFixed(0)
      : value.toFixed(Math.min(-place, 12));
  const isZero = !/[1-9]/.test(text);
  return text.startsWith('-') ? (isZero ? text.slice(1) : `−${text.slice(1)}`) : text;
}

/** A value with its uncertainty in words: "243 ± 3 mW". */
export interface Written {
  readonly value: string;
  /** Expanded, 95 %; "–" when it is not known. */
  readonly uncertainty: string;
  /** With its prefix. */
  readonly unit: string;
}

/**
 * Writes a measured value with its expanded uncertainty (95 %).
 * Without a known uncertainty the value is given to three digits of `scale`.
 */
export function writeMeasured(
  measured: {
    readonly value: number;
    readonly standardUncertainty: number | null;
    readonly degreesOfFreedom: number;
  },
  as: { readonly unit: string; readonly prefix: Prefix; readonly digits?: 'short' | 'full' },
): Written {
  const { exponent, symbol } = as.prefix;
  const value = scaled(measured.value, exponent);
  const expanded = expandedUncertainty(measured);
  const unit = `${symbol}${as.unit}`;
  if (expanded === null) {
    const place = value === 0 ? 0 : firstPlace(value) - 2;
    return { value: decimalAt(value, place), uncertainty: NO_VALUE, unit };
  }
  const spread = scaled(expanded, exponent);
  const place = placeOf(spread, as.digits);
  return { value: decimalAt(value, place), uncertainty: decimalAt(spread, place), unit };
}
