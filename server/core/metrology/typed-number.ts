/**
 * A number with its unit as a person types it: "2.31", "2,31 V", "43.1 mA". Point and comma are
 * both decimal signs, because both are where lessons are taught; what could mean two numbers is
 * asked back, never guessed.
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

/** Thrown with the sentence for the field. */
export class NotUnderstood extends Error {}

/**
 * @param instance a number that would fit, for the sentence that asks for one
 * @throws NotUnderstood
 */
export function readTyped(text: string, units: TypedUnits, instance: string): TypedNumber {
  const typed = text.trim().replace(/^[−–]/, '-');
  if (typed === '') throw new NotUnderstood(`Type a number, for instance ${instance}.`);
  if (/^-?[o0]\.?l\b/i.test(typed)) {
    throw new NotUnderstood('OL means that the range is too small. Set the meter to a larger one and read again.');
  }
  const [, digits = '', unit = ''] = /^([-+]?[\d.,]*)\s*(.*)$/.exec(typed) ?? [];
  const number = digitsOf(digits);
  if (number === null || /^\d/.test(unit)) {
    throw new NotUnderstood(`“${typed}” is not a number. Type one like ${instance}.`);
  }
  const { multiplier, divisor } = unitOf(unit, units);
  const decimals = number.split('.')[1]?.length ?? 0;
  return {
    value: (Number(number) * multiplier) / divisor,
    step: multiplier / (divisor * 10 ** decimals),
  };
}

/** With a decimal point; null where no number stands. @throws NotUnderstood where two could. */
function digitsOf(typed: string): string | null {
  if (/^[-+]?[1-9]\d{0,2},\d{3}$/.test(typed)) {
    const point = typed.replace(',', '.');
    const whole = typed.replace(',', '');
    throw new NotUnderstood(`“${typed}” could be ${point} or ${whole}. Type it with a point: ${point}, or without: ${whole}.`);
  }
  if ((typed.match(/[.,]/g) ?? []).length > 1) {
    throw new NotUnderstood(`“${typed}” has more than one decimal sign. Leave one.`);
  }
  const number = typed.replace(',', '.');
  return /^[-+]?(\d+(\.\d+)?|\.\d+)$/.test(number) ? number : null;
}

function unitOf(unit: string, { usual, known }: TypedUnits): Conversion {
  // The micro sign has two code points, and many keyboards have neither.
  const plain = unit.replace(/^[μu](?=\w)/, 'µ') || usual;
  const found = Object.hasOwn(known, plain) ? known[plain] : undefined;
  if (found !== undefined) return found;
  const names = Object.keys(known).filter((name) => name !== '');
  if (names.length === 0) throw new NotUnderstood(`Leave “${plain}” out: a number alone is wanted.`);
  throw new NotUnderstood(`“${plain}” is not known here. Use ${names.join(' or ')}.`);
}
