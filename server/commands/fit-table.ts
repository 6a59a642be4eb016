/** A table of readings at a generator or lamp: columns as a board's header names them. */
import { separatorIn, splitRow, type CsvRow } from '#core/csv-rows.ts';
import { decimalSignOf, isMissing, readDecimal, type DecimalSign } from '#core/decimal-sign.ts';
import { STEP_LIMITS } from '#core/rotor/fitting/generator-readings.ts';
import { columnNamed, type Column } from '#protocol/plain-header.ts';
import { readCsvRows } from '../sources/csv.ts';
import { InputError } from './exit-errors.ts';

/** Null: the cell is empty, or there is no such column. */
export interface ReadingRow {
  readonly line: number;
  readonly rotorSpeed_radps: number | null;
  readonly voltage_V: number;
  readonly current_A: number | null;
}

const CHANNELS = {
  voltage: 'voltage_V',
  current: 'current_A',
  rotorSpeed: 'rotorSpeed_radps',
} as const;
type Quantity = keyof typeof CHANNELS;
/** Of a table that was exported here: rows where the cell says this count for nothing. */
const NOT_COUNTED = { struck: 'true', recorded: 'false', rotor_still: 'true' } as const;

interface Table {
  readonly file: string;
  readonly names: readonly string[];
  readonly columns: readonly Column[];
  readonly sign: DecimalSign;
}

interface Cells {
  readonly line: number;
  readonly fields: readonly string[];
}

/** Rows without a voltage are passed over. @throws InputError, CsvError */
export async function readReadings(file: string): Promise<readonly ReadingRow[]> {
  const all: CsvRow[] = [];
  for await (const rows of readCsvRows(file)) all.push(...rows);
  const [header, ...body] = all;
  if (header === undefined) {
    throw new InputError('csv-empty', `${file} is empty. Its first row names the columns: rotorSpeed_rpm,voltage_V,current_mA.`);
  }
  const separator = separatorIn(header.text);
  const [first, ...cells] = [header, ...body].map(({ line, text }): Cells => {
    return { line, fields: (splitRow(text, separator) ?? []).map((field) => field.trim()) };
  });
  const names = first?.fields ?? [];
  const sign = decimalSignOf(separator, cells.flatMap(({ fields }) => fields));
  const table: Table = { file, names, columns: names.map(columnNamed), sign };
  if (placeOf('voltage', table) < 0) {
    throw new InputError('column-unknown', `${file} line ${header.line}: there is no column with the voltage. Name it with its unit: voltage_V or voltage_mV.`);
  }
  const twice = twiceGiven(table);
  if (twice !== null) {
    throw new InputError('column-unknown', `${file} line ${header.line}: ${twice.join(' and ')} both give the same quantity. Rename the one that is not meant.`);
  }
  const rows = cells.flatMap((one) => rowOf(one, table));
  if (rows.length > 0) return upright(rows, file);
  throw new InputError('no-readings', `${file} holds no row with a voltage. Fill the column in.`);
}

function rowOf({ line, fields }: Cells, table: Table): ReadingRow[] {
  const { file, names } = table;
  if (fields.length !== names.length) {
    throw badRow(file, line, `it has ${fields.length} fields, but there are ${names.length} columns`);
  }
  const isOut = Object.entries(NOT_COUNTED).some(([name, value]) => {
    return fields[names.indexOf(name)] === value;
  });
  const read = (quantity: Quantity): number | null => readCell({ line, fields }, quantity, table);
  const voltage_V = read('voltage');
  if (isOut || voltage_V === null) return [];
  return [{ line, voltage_V, current_A: read('current'), rotorSpeed_radps: read('rotorSpeed') }];
}

function placeOf(quantity: Quantity, { columns }: Table): number {
  return columns.findIndex((column) => {
    return column.role === 'quantity' && column.quantity === quantity;
  });
}

/** Columns of which one would be passed over unseen. */
function twiceGiven({ names, columns }: Table): readonly string[] | null {
  for (const quantity of Object.keys(CHANNELS)) {
    const alike = names.filter((_, place) => {
      const column = columns[place];
      return column?.role === 'quantity' && column.quantity === quantity;
    });
    if (alike.length > 1) return alike;
  }
  return null;
}

/** Of the largest reading: less is a zero that scatters. */
const ABOUT_ZERO = 0.02;

/** Without their signs: a reversed cable turns that of a whole column, and nothing else. */
function upright(rows: readonly ReadingRow[], file: string): ReadingRow[] {
  const rectified = (name: Exclude<keyof ReadingRow, 'line'>): (number | null)[] => {
    const values = rows.map((row) => row[name]);
    const largest = values.reduce<number>((most, value) => {
      return Math.abs(value ?? 0) > Math.abs(most) ? (value ?? 0) : most;
    }, 0);
    return values.map((value, place) => {
      if (value === null || value * largest >= 0) return value && Math.abs(value);
      if (Math.abs(value) <= ABOUT_ZERO * Math.abs(largest)) return 0;
      throw badRow(file, rows[place]!.line, `the ${WORDS[name]} has another sign than the largest one`);
    });
  };
  const voltages = rectified('voltage_V');
  const currents = rectified('current_A');
  const speeds = rectified('rotorSpeed_radps');
  return rows.map(({ line }, place) => ({
    line,
    voltage_V: voltages[place] ?? 0,
    current_A: currents[place] ?? null,
    rotorSpeed_radps: speeds[place] ?? null,
  }));
}

const WORDS = { voltage_V: 'voltage', current_A: 'current', rotorSpeed_radps: 'speed' } as const;

/** SI. */
function readCell({ line, fields }: Cells, quantity: Quantity, table: Table): number | null {
  const place = placeOf(quantity, table);
  const [column, cell = ''] = [table.columns[place], fields[place]];
  if (column?.role !== 'quantity' || isMissing(cell)) return null;
  const value = readDecimal(cell, table.sign);
  const { name, conversion } = column;
  if (value === null) {
    throw badRow(table.file, line, `${name} is “${cell}”, which is not a number`);
  }
  const { low, high } = STEP_LIMITS[CHANNELS[quantity]];
  const si = (value * conversion.multiplier) / conversion.divisor;
  if (Math.abs(si) >= low && Math.abs(si) <= high) return si;
  throw badRow(table.file, line, `${name} is ${cell}, which no bench has; see the unit in the first row`);
}

/** What is wrong with one row, and what to do. */
export function badRow(file: string, line: number, what: string): InputError {
  return new InputError('bad-row', `${file} line ${line}: ${what}. Put it right, or take the row out.`);
}
