/** One cell of a table of trials: a number, a level, a name, or what is wrong with it. */
import type { Conversion } from '#protocol/quantity.ts';
import { isMissing, readDecimal, type DecimalSign } from '../../decimal-sign.ts';
import { plainName, valueOf } from '../plan/factors.ts';
import type { Plan } from '../plan/plan.ts';
import { LIMITS } from '../../reading/limits.ts';
import type { ImportColumn } from './columns.ts';
import { RowUnreadable } from './fault.ts';

export const LONGEST_NAME = 24;

/** How the cells of a table are to be read. */
export interface Table {
  readonly columns: readonly ImportColumn[];
  readonly plan: Plan | null;
  readonly decimalSign: DecimalSign;
  /** Exported from here: a trial that no run has is without levels. */
  readonly isOwn: boolean;
  /** What stands in the column of rounds, to the round's number. */
  readonly rounds: ReadonlyMap<string, number>;
  /** Factors of which some level is no number: all of its levels are names. */
  readonly named: ReadonlySet<string>;
}

/**
 * A level as a trial carries it: a number, a name, or what the plan's label stands for.
 * @throws RowUnreadable
 */
export function readLevel(
  text: string,
  { name, key, conversion }: Extract<ImportColumn, { as: 'factor' }>,
  table: Table,
): number | string {
  if (text === '') throw new RowUnreadable({ kind: 'cell-empty', column: name });
  const levels = table.plan?.factors.find((factor) => factor.key === key)?.levels;
  const same = levels?.find(({ label }) => plainName(label) === plainName(text));
  if (same !== undefined) return valueOf(same);
  if (levels !== undefined && levels.every(({ value }) => value === null)) {
    const labels = levels.map(({ label }) => label);
    throw new RowUnreadable({ kind: 'level-unknown', column: name, text, levels: labels });
  }
  if (levels === undefined && table.named.has(key)) return readName(text, name, LONGEST_NAME);
  const value = readPlain(text, name, table);
  if (value === null) throw new RowUnreadable({ kind: 'cell-empty', column: name });
  // What was converted is rounded to the digits that people type, so that 80 mm is 0.08 m.
  return Number(converted(value, conversion).toPrecision(12));
}

/** @throws RowUnreadable for a text that is longer */
export function readName(text: string, name: string, longest: number): string {
  if (text.length <= longest) return text;
  throw new RowUnreadable({ kind: 'too-long', column: name, most: longest });
}

/** Null where the cell says that there is no number. @throws RowUnreadable */
function readPlain(text: string, name: string, { decimalSign }: Table): number | null {
  if (isMissing(text)) return null;
  const other = decimalSign === '.' ? ',' : '.';
  if (text.includes(other)) {
    throw new RowUnreadable({ kind: 'other-sign', column: name, text, sign: decimalSign });
  }
  const value = readDecimal(text, decimalSign);
  if (value !== null) return value;
  throw new RowUnreadable({ kind: 'no-number', column: name, text });
}

/** In SI; null where there is no number. @throws RowUnreadable */
export function readNumber(
  text: string,
  column: Extract<ImportColumn, { as: 'value' | 'uncertainty' | 'degrees' }>,
  table: Table,
): number | null {
  const { name, as, quantity } = column;
  const number = readPlain(text, name, table);
  if (number === null) return null;
  if (as !== 'value') {
    if (number < 0) throw new RowUnreadable({ kind: 'below-zero', column: name });
    return as === 'degrees' ? number : converted(number, column.conversion);
  }
  const value = converted(number, column.conversion);
  const limits = quantity === 'power_W' ? null : LIMITS[quantity];
  if (limits !== null && (value < limits.lowest || value > limits.highest)) {
    throw new RowUnreadable({ kind: 'not-possible', column: name, text });
  }
  return value;
}

const YES = new Set(['1', 'yes', 'true', 'x']);
const NO = new Set(['', '0', 'no', 'false']);

/** @throws RowUnreadable */
export function readYesNo(text: string, name: string): boolean {
  const plain = text.toLowerCase();
  if (YES.has(plain)) return true;
  if (NO.has(plain)) return false;
  throw new RowUnreadable({ kind: 'neither-yes-nor-no', column: name, text });
}

function converted(value: number, { multiplier, divisor }: Conversion): number {
  return (value * multiplier) / divisor;
}
