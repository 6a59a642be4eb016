/** One row of a table of trials: its cells, and power where only voltage and current are given. */
import { z } from 'zod';
import { combine, MOST_DEGREES_OF_FREEDOM, type Component } from '../../metrology/combine.ts';
import { MeasuredValueSchema, type MeasuredValue } from '../../metrology/measured-value.ts';
import { LONGEST_NAME, readLevel, readName, readNumber, readYesNo, type Table } from './cell.ts';
import type { ImportedQuantity } from './columns.ts';
import { RowUnreadable } from './fault.ts';

/** More rows than this are no lesson's trials. */
export const MOST_IMPORTED = 500;

const LONGEST_NOTE = 500;
const LONGEST_REASON = 200;
const LONGEST_RUN = 200;
/** Power may differ from voltage times current by this share: means of products are no products. */
const POWER_SHARE = 0.2;
const POWER_ABOVE_W = 1e-3;

const value = MeasuredValueSchema.nullable();

export const ImportedTrialSchema = z.strictObject({
  /** Line of the table, from 1. */
  line: z.number().int().positive(),
  factors: z.record(z.string(), z.union([z.number(), z.string()])),
  /** Id of the run that it was of, where the table was exported here; null: not told. */
  run: z.string().max(LONGEST_RUN).nullable(),
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
  rotorStill: z.boolean(),
  /** False: it was cut short, and does not count as a run's trial. */
  recorded: z.boolean(),
  /** It is set aside in the table. */
  struck: z.boolean(),
  strikeReason: z.string().max(LONGEST_REASON).nullable(),
});
export type ImportedTrial = Readonly<z.infer<typeof ImportedTrialSchema>>;

/** @throws RowUnreadable */
export function readRow(fields: readonly string[], line: number, table: Table): ImportedTrial {
  const { columns } = table;
  if (fields.length !== columns.length) {
    throw new RowUnreadable({
      kind: 'field-count',
      fields: fields.length,
      columns: columns.length,
    });
  }
  const factors: Record<string, number | string> = {};
  const read = { value: byQuantity(), uncertainty: byQuantity(), degrees: byQuantity() };
  const names: Record<keyof typeof LONGEST, string | null> = {
    run: null,
    group: null,
    note: null,
    strikeReason: null,
  };
  let round: number | null = null;
  const told: Partial<Record<'struck' | 'rotorStill' | 'recorded', boolean>> = {};
  columns.forEach((column, place) => {
    const text = (fields[place] ?? '').trim();
    switch (column.as) {
      case 'factor':
        if (text === '' && table.isOwn) break;
        factors[column.key] = readLevel(unguarded(text), column, table);
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
      case 'struck':
      case 'rotorStill':
      case 'recorded':
        told[column.as] = readYesNo(text, column.name);
        break;
      case 'simulated':
        if (readYesNo(text, column.name)) throw new RowUnreadable({ kind: 'simulated' });
        break;
      case 'run':
      case 'group':
      case 'note':
      case 'strikeReason':
        names[column.as] = readName(unguarded(text), column.name, LONGEST[column.as]) || null;
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
    run: names.run,
    round,
    group: names.group,
    values: {
      voltage_V,
      current_A,
      power_W,
      windSpeed_mps: measured('windSpeed_mps'),
      rotorSpeed_radps: measured('rotorSpeed_radps'),
    },
    note: names.note,
    rotorStill: told.rotorStill ?? power_W.value === 0,
    recorded: told.recorded ?? true,
    struck: told.struck ?? false,
    strikeReason: told.struck === true ? names.strikeReason : null,
  };
}

/** Without the mark that keeps a spreadsheet from taking a text for a formula. */
function unguarded(text: string): string {
  return text.replace(/^'(?=[=+\-@])/, '');
}

const LONGEST = {
  run: LONGEST_RUN,
  group: LONGEST_NAME,
  note: LONGEST_NOTE,
  strikeReason: LONGEST_REASON,
} as const;

const byQuantity = () => new Map<ImportedQuantity, number>();

/** Uncertainty undefined: the table does not tell. One of 0 tells nothing either: none is exact. */
function withUncertainty(value: number, u?: number, degrees?: number): MeasuredValue {
  // With an uncertainty but no degrees of freedom it is taken as well known (GUM, G.6.6).
  if (u === undefined || u === 0) return { value, standardUncertainty: null, degreesOfFreedom: 0 };
  const degreesOfFreedom = Math.min(degrees ?? Infinity, MOST_DEGREES_OF_FREEDOM);
  return { value, standardUncertainty: u, degreesOfFreedom };
}

/** As the table has it, else voltage times current, with independent uncertainties. */
function powerOf(
  stated: MeasuredValue | null,
  voltage: MeasuredValue | null,
  current: MeasuredValue | null,
): MeasuredValue {
  if (voltage === null || current === null) {
    if (stated !== null) return stated;
    const quantity = voltage === null ? 'voltage_V' : 'current_A';
    throw new RowUnreadable({ kind: 'value-missing', quantity });
  }
  const product_W = voltage.value * current.value;
  if (stated !== null) {
    const larger_W = Math.max(Math.abs(stated.value), Math.abs(product_W));
    if (larger_W > POWER_ABOVE_W && Math.abs(stated.value - product_W) > POWER_SHARE * larger_W) {
      throw new RowUnreadable({
        kind: 'power-disagrees',
        stated: short(stated.value),
        product: short(product_W),
      });
    }
    return stated;
  }
  const parts = [partOf(voltage, current.value), partOf(current, voltage.value)];
  const known = parts.filter((part) => part !== null);
  if (known.length < parts.length) return withUncertainty(product_W);
  const { u, degreesOfFreedom } = combine(known);
  return withUncertainty(product_W, u, degreesOfFreedom);
}

/** What it adds to the uncertainty of its product with `times`; null where it is not known. */
function partOf(measured: MeasuredValue, times: number): Component | null {
  const { standardUncertainty, degreesOfFreedom } = measured;
  if (standardUncertainty === null) return null;
  return { u: Math.abs(times) * standardUncertainty, degreesOfFreedom };
}

function short(value: number): string {
  return String(Number(value.toPrecision(3)));
}

