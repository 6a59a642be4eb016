/** Numbers in tables of people whose decimal sign may be a comma. */
import { parseNumber } from '#protocol/number.ts';
import type { CsvSeparator } from './csv-rows.ts';

export type DecimalSign = '.' | ',';

/** Where commas don't separate, they may be decimal signs; one number with a comma decides. */
export function decimalSignOf(separator: CsvSeparator, fields: readonly string[]): DecimalSign {
  if (separator === ',') return '.';
  return fields.some((field) => /^\s*[-+−]?\d*,\d+\s*$/.test(field)) ? ',' : '.';
}

/** Null for what is no number, one with the other sign included. */
export function readDecimal(text: string, sign: DecimalSign): number | null {
  if (sign === ',' && text.includes('.')) return null;
  return parseNumber((sign === ',' ? text.replace(',', '.') : text).replace('−', '-'));
}

const MISSING = new Set(['', 'nan', 'inf', '-inf', 'ovf', '-', '–']);

/** Whether a cell says that there is no number. */
export function isMissing(text: string): boolean {
  return MISSING.has(text.toLowerCase());
}
