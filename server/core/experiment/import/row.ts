/** One row of a table of trials: its cells, and power where only voltage and current are given. */
import { z } from 'zod';
import { combine, MOST_DEGREES_OF_FREEDOM } from '../../metrology/combine.ts';
import { MeasuredValueSchema, type MeasuredValue } from '../trial.ts';
import {
  LONGEST_NAME,
  readLevel,
  readName,
  readNumber,
  RowUnreadable,
  type Table,
} from './cell.ts';
import type { ImportedQuantity } from './columns.ts';

const LONGEST_NOTE = 500;
/** Power may differ from voltage times current by this share: means of products are no products. */
const POWER_SHARE = 0.2;
const POWER_ABOVE_W = 1e-3;

/**
 * A value whose uncertainty the table does not tell has a standard uncertainty of 0 with 0 degrees
 * of freedom: not known, shown as "–".
 */
const value = MeasuredValueSchema.nullable();

export const ImportedTrialSchema = z.strictObject({
  /** Line of the table, from 1. */
  line: z.number().int().positive(),
  factors: z.record(z.string(), z.union([z.number(), z.string()])),
  /** From 1; null where the table has no rounds. */
  round: z.number().int().positive().nullable(),
  group: z.string().max(LONGEST_NAME).nullable(),
  values: z.strictObject({
    voltage_V: value,
    current_A: value,
    power_W: value,
    windSpeed_mps: value,
    rotorSpeed_radps: value,
  }),
  note: z.string().max(LONGEST_NOTE).nullable(),
});
export type ImportedTrial = Readonly<z.infer<typeof ImportedTrialSchema>>;

/** @throws RowUnreadable */
export function readRow(fields: readonly string[], line: number, table: Table): ImportedTrial {
  const { columns } = table;
  if (fields.length !== columns.length) {
    throw new RowUnreadable(
      `There are ${fields.length} fields, but ${columns.length} columns. Put the row right, or take it out.`,
    );
  }
  const factors: Record<string, number | string> = {};
  const read = { value: byQuantity(), uncertainty: byQuantity(), degrees: byQuantity() };
  let [round, group, note]: [number | null, string | null, string | null] = [null, null, null];
  columns.forEach((column, place) => {
    const text = (fields[place] ?? '').trim();
    switch (column.as) {
      case 'factor':
        factors[column.key] = readLevel(text, column, table);
        break;
      case 'value':
      case 'uncertainty':
      case 'degrees': {
        const number = readNumber(text, column, table);
        if (number !== null) read[column.as].set(column.quantity, number);
        break;
      }
      case 'round':
        round = table.rounds.get(text) ?? null;
        break;
      case 'group':
        group = readName(text, column.name, LONGEST_NAME) || null;
        break;
      case 'note':
        note = readName(text, column.name, LONGEST_NOTE) || null;
        break;
      case 'without-unit':
      case 'unused':
        break;
    }
  });
  const measured = (quantity: ImportedQuantity): MeasuredValue | null => {
    const value = read.value.get(quantity);
    if (value === undefined) return null;
    return withUncertainty(value, read.uncertainty.get(quantity), read.degrees.get(quantity));
  };
  const [voltage_V, current_A] = [measured('voltage_V'), measured('current_A')];
  const power_W = powerOf(measured('power_W'), voltage_V, current_A);
  return {
    line,
    factors,
    round,
    group,
    values: {
      voltage_V,
      current_A,
      power_W,
      windSpeed_mps: measured('windSpeed_mps'),
      rotorSpeed_radps: measured('rotorSpeed_radps'),
    },
    note,
  };
}

const byQuantity = () => new Map<ImportedQuantity, number>();

/** Uncertainty and degrees of freedom undefined: the table does not tell. */
function withUncertainty(value: number, u?: number, degrees?: number): MeasuredValue {
  // With an uncertainty but no degrees of freedom it is taken as well known (GUM, G.6.6).
  const known = u !== undefined && u > 0;
  const degreesOfFreedom = known ? Math.min(degrees ?? Infinity, MOST_DEGREES_OF_FREEDOM) : 0;
  return { value, standardUncertainty: known ? u : 0, degreesOfFreedom };
}

/** As the table has it, else voltage times current, with independent uncertainties. */
function powerOf(
  stated: MeasuredValue | null,
  voltage: MeasuredValue | null,
  current: MeasuredValue | null,
): MeasuredValue {
  if (voltage === null || current === null) {
    if (stated !== null) return stated;
    const wanting = voltage === null ? 'voltage' : 'current';
    throw new RowUnreadable(`There is no ${wanting}. Fill it in, or take the row out.`);
  }
  const product_W = voltage.value * current.value;
  if (stated !== null) {
    const larger_W = Math.max(Math.abs(stated.value), Math.abs(product_W));
    if (larger_W > POWER_ABOVE_W && Math.abs(stated.value - product_W) > POWER_SHARE * larger_W) {
      throw new RowUnreadable(
        `Power is ${short(stated.value)} W, but voltage times current is ${short(product_W)} W. Check the units in the first row.`,
      );
    }
    return stated;
  }
  const parts = [
    { of: voltage, times: current.value },
    { of: current, times: voltage.value },
  ];
  if (parts.some(({ of }) => of.standardUncertainty === 0)) return withUncertainty(product_W);
  const { u, degreesOfFreedom } = combine(
    parts.map(({ of, times }) => ({
      u: Math.abs(times) * of.standardUncertainty,
      degreesOfFreedom: of.degreesOfFreedom,
    })),
  );
  return withUncertainty(product_W, u, degreesOfFreedom);
}

function short(value: number): string {
  return String(Number(value.toPrecision(3)));
}

