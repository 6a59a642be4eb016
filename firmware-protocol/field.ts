/** The kinds of field in Stillmark lines: how each is read and written. */
import { parseNumber } from './number.ts';

/** `read` gives undefined for a text that is no such field. */
export interface Field<T> {
  read(text: string): T | undefined;
  write(value: T): string;
}

/** A whole number in its only spelling: no plus, no leading zero, no -0. */
export function whole(smallest: number, largest: number): Field<number> {
  return {
    read(text) {
      const value = Number(text);
      return String(value) === text &&
        Number.isInteger(value) &&
        value >= smallest &&
        value <= largest
        ? value
        : undefined;
    },
    write: String,
  };
}

/** A finite decimal number, in any spelling of the number grammar. */
export const decimal: Field<number> = {
  read(text) {
    const value = parseNumber(text);
    // -0 says nothing that 0 does not.
    return value === null ? undefined : value + 0;
  },
  write: String,
};

/** A standard uncertainty: not negative; nothing where it is not known. */
export const uncertainty: Field<number | null> = {
  read(text) {
    if (text === '') return null;
    const value = decimal.read(text);
    return value !== undefined && value >= 0 ? value : undefined;
  },
  write: (value) => (value === null ? '' : String(value)),
};

/** One of a closed set of words. */
export function word<const W extends string>(words: readonly W[]): Field<W> {
  return {
    read: (text) => words.find((candidate) => candidate === text),
    write: (value) => value,
  };
}

/** Free text: 1 to 40 printable ASCII characters other than `$`, `*` and the comma. */
export const freeText: Field<string> = {
  read: (text) => (/^[ -#%-)+\-.-~]{1,40}$/.test(text) ? text : undefined),
  write: (value) => value,
};
