/**
 * A number as a person types it, alone or with its unit: "2.31", "2,31 V", "43.1 mA". Point and
 * comma are both decimal signs, because both are where lessons are taught; what could mean two
 * numbers is asked back where a reading is wanted, never guessed.
 */
import type { Conversion } from '#protocol/quantity.ts';

export interface TypedUnits {
  /** The unit of a number that is typed without one. */
  readonly usual: string;
  /** Every unit that may be typed, to SI. */
  readonly known: Readonly<Record<string, Conversion>>;
}

export interface TypedNumber {
  /** SI. */
  readonly value: number;
  /** Worth of the last digit typed, SI. */
  readonly step: number;
}

/** Why what was typed is asked back, for a page to say in its own language. */
export type TypedFault =
  /** Nothing was typed; `instance` is a number that would fit. */
  | { readonly kind: 'empty'; readonly instance: string }
  /** The meter showed OL: its range is too small. */
  | { readonly kind: 'overload' }
  | { readonly kind: 'no-number'; readonly typed: string; readonly instance: string }
  | { readonly kind: 'two-numbers'; readonly typed: string; readonly decimal: string; readonly whole: string }
  | { readonly kind: 'two-signs'; readonly typed: string }
  | { readonly kind: 'no-unit-wanted'; readonly unit: string }
  | { readonly kind: 'unit-unknown'; readonly unit: string; readonly known: readonly string[] };

/** Thrown for what is asked back. */
export class NotUnderstood extends Error {
  readonly fault: TypedFault;

  constructor(fault: TypedFault) {
    super(fault.kind);
    this.fault = fault;
  }
}

const NUMBER = /^([-+−–]?)(\d{1,9}(?:[.,]\d{0,9})?|[.,]\d{1,9})$/;

/** The number with a decimal point, "2,5" and "−2.5" as "2.5" and "-2.5"; null for what is none. */
function withPoint(text: string): string | null {
  const [, sign = '', digits] = NUMBER.exec(text.trim()) ?? [];
  if (digits === undefined) return null;
  return `${sign === '' || sign === '+' ? '' : '-'}${digits.replace(',', '.')}`;
}

/** "2,5" and "2.5" are 2.5; null for what is no number. */
export function readNumber(text: string): number | null {
  const number = withPoint(text);
  // Adding 0 makes no zero negative.
  return number === null ? null : Number(number) + 0;
}

/**
 * @param instance a number that would fit, for the sentence that asks for one
 * @throws NotUnderstood
 */
export function readTyped(text: string, units: TypedUnits, instance: string): TypedNumber {
  const typed = text.trim();
  if (typed === '') throw new NotUnderstood({ kind: 'empty', instance });
  if (/^[-−–]?[o0]\.?l\b/i.test(typed)) throw new NotUnderstood({ kind: 'overload' });
  const [, digits = '', unit = ''] = /^([-+−–]?[\d.,]*)\s*(.*)$/.exec(typed) ?? [];
  refuseTwofold(digits);
  const number = withPoint(digits);
  // A point with nothing behind it may be half of a number.
  if (number === null || number.endsWith('.') || /^\d/.test(unit)) {
    throw new NotUnderstood({ kind: 'no-number', typed, instance });
  }
  const { multiplier, divisor } = unitOf(unit, units);
  const decimals = number.split('.')[1]?.length ?? 0;
  return {
    value: (Number(number) * multiplier) / divisor + 0,
    step: multiplier / (divisor * 10 ** decimals),
  };
}

/** @throws NotUnderstood where two numbers could be meant */
function refuseTwofold(typed: string): void {
  if (/^[-+−–]?[1-9]\d{0,2},\d{3}$/.test(typed)) {
    const [decimal, whole] = [typed.replace(',', '.'), typed.replace(',', '')];
    throw new NotUnderstood({ kind: 'two-numbers', typed, decimal, whole });
  }
  if ((typed.match(/[.,]/g) ?? []).length > 1) {
    throw new NotUnderstood({ kind: 'two-signs', typed });
  }
}

function unitOf(unit: string, { usual, known }: TypedUnits): Conversion {
  // The micro sign has two code points, and many keyboards have neither.
  const plain = unit.replace(/^[μu](?=\w)/, 'µ') || usual;
  const found = Object.hasOwn(known, plain) ? known[plain] : undefined;
  if (found !== undefined) return found;
  const names = Object.keys(known).filter((name) => name !== '');
  if (names.length === 0) throw new NotUnderstood({ kind: 'no-unit-wanted', unit: plain });
  throw new NotUnderstood({ kind: 'unit-unknown', unit: plain, known: names });
}
