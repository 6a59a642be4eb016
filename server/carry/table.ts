/** A table of the package: its columns described once, for the descriptor, CSV and spreadsheet. */
import { csvRow, type Cell } from './csv-text.ts';

/** Types of Table Schema (Data Package 2.0). */
export type FieldType = 'string' | 'number' | 'integer' | 'boolean' | 'datetime';

export interface Column<Row> {
  readonly name: string;
  readonly type: FieldType;
  /** As written after a number; SI. */
  readonly unit?: string;
  readonly description: string;
  of(row: Row): Cell;
}

export interface Table<Row> {
  readonly columns: readonly Column<Row>[];
  readonly rows: Iterable<Row>;
}

export function* csvLines<Row>({ columns, rows }: Table<Row>): Generator<string> {
  yield csvRow(columns.map(({ name }) => name));
  for (const row of rows) yield csvRow(columns.map((column) => column.of(row)));
}

/** A Table Schema, which has no place for units: they stand in a property of our own. */
export function tableSchema<Row>(columns: readonly Column<Row>[]): object {
  return {
    fields: columns.map(({ name, type, unit, description }) => ({
      name,
      type,
      ...(unit !== undefined && { unit }),
      description,
    })),
    missingValues: [''],
  };
}

/** The name of a factor's column, where the table may have a column of that name already. */
export function factorName(key: string, taken: readonly { readonly name: string }[]): string {
  return taken.some(({ name }) => name === key) ? `factor_${key}` : key;
}

/** A time as every version of Table Schema reads it: RFC 3339 in UTC, without fractions. */
export function wholeSeconds(time: string): string {
  return time.replace(/\.\d+Z$/, 'Z');
}
