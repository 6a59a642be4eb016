/** Readings of generator and lamp as they are typed at the bench, and what they say. */
import { z } from 'zod';
import { LONGEST_TYPED, quantityUnits } from '#core/experiment/keyed-form.ts';
import {
  NotUnderstood,
  readTyped,
  type TypedFault,
  type TypedUnits,
} from '#core/metrology/typed-number.ts';
import type { LoadStep } from '#core/rotor/fitting/fit-generator.ts';
import {
  MOST_STEPS,
  SPEEDS,
  STEP_LIMITS,
  type GeneratorReadings,
} from '#core/rotor/fitting/generator-readings.ts';
import type { LampReadings } from '#core/rotor/fitting/lamp-readings.ts';

export const PARTS = ['generator', 'lamp'] as const;
export type Part = (typeof PARTS)[number];
export const COLUMNS = ['speed', 'volts', 'amps'] as const;
export type Column = (typeof COLUMNS)[number];

const typed = z.string().max(LONGEST_TYPED);
const RowSchema = z.object({ speed: typed, volts: typed, amps: typed });
export type FitRow = Readonly<z.infer<typeof RowSchema>>;

export const FitFormSchema = z.object({
  speed: z.enum(SPEEDS),
  generator: z.array(RowSchema).max(MOST_STEPS).readonly(),
  lamp: z.array(RowSchema).max(MOST_STEPS).readonly(),
});
export type FitForm = Readonly<z.infer<typeof FitFormSchema>>;

export const EMPTY_ROW: FitRow = { speed: '', volts: '', amps: '' };
export const EMPTY_FIT_FORM: FitForm = { speed: 'read', generator: [], lamp: [] };

const RADIANS = { multiplier: Math.PI, divisor: 30 };
/** Without a unit: turns a minute, volts, milliamperes, as meters on a bench show them. */
export const FIT_UNITS: Readonly<Record<Column, TypedUnits>> = {
  speed: { usual: 'r/min', known: { 'r/min': RADIANS, rpm: RADIANS } },
  volts: quantityUnits('voltage_V', 'V'),
  amps: quantityUnits('current_A', 'mA'),
};
const INSTANCES: Readonly<Record<Column, string>> = { speed: '1450', volts: '2.31', amps: '43.1' };
const SI = { speed: 'rotorSpeed_radps', volts: 'voltage_V', amps: 'current_A' } as const;

export type FitFault =
  | TypedFault
  | { readonly kind: 'needed' }
  /** As typed without a unit. */
  | { readonly kind: 'between'; readonly low: number; readonly high: number };

/** At "3.volts": the third row's. */
export type FitProblems = Readonly<Record<string, FitFault>>;

export interface ReadFit<Readings> {
  /** Null where nothing is typed, or something is in the way. */
  readonly readings: Readings | null;
  readonly problems: FitProblems;
}

/** An empty current is none: spun without a load. */
export function readGenerator({ speed, generator }: FitForm): ReadFit<GeneratorReadings> {
  const { rows, problems } = readRows(generator, (column) => {
    return column === 'volts' || (column === 'speed' && speed === 'read');
  });
  const steps = rows.map((row) => ({
    rotorSpeed_radps: speed === 'read' ? (row.speed ?? 0) : null,
    voltage_V: row.volts ?? 0,
    current_A: row.amps ?? 0,
  }));
  return { readings: isSound(rows, problems) ? { speed, steps } : null, problems };
}

export function readLamp({ lamp }: FitForm): ReadFit<LampReadings> {
  const { rows, problems } = readRows(lamp, (column) => column !== 'speed');
  const steps = rows.map((row): LoadStep => {
    return { voltage_V: row.volts ?? 0, current_A: row.amps ?? 0 };
  });
  return { readings: isSound(rows, problems) ? { steps } : null, problems };
}

function isSound(rows: readonly unknown[], problems: FitProblems): boolean {
  return rows.length > 0 && Object.keys(problems).length === 0;
}

type Read = Partial<Record<Column, number>>;

/** Rows in which nothing is typed are passed over. */
function readRows(
  rows: readonly FitRow[],
  isNeeded: (column: Column) => boolean,
): { rows: Read[]; problems: FitProblems } {
  const problems: Record<string, FitFault> = {};
  const read = rows.flatMap((row, place): Read[] => {
    if (isBlank(row)) return [];
    const one: Read = {};
    for (const column of COLUMNS) {
      const found = readCell(column, row[column], isNeeded(column));
      if (typeof found === 'number') one[column] = found;
      else if (found !== null) problems[`${place}.${column}`] = found;
    }
    return [one];
  });
  return { rows: read, problems };
}

export function isBlank({ speed, volts, amps }: FitRow): boolean {
  return [speed, volts, amps].every((text) => text.trim() === '');
}

/** SI; null where nothing is typed and nothing needed. */
function readCell(column: Column, text: string, isNeeded: boolean): number | FitFault | null {
  if (text.trim() === '') return isNeeded ? { kind: 'needed' } : null;
  try {
    const { value } = readTyped(text, FIT_UNITS[column], INSTANCES[column]);
    const { low, high } = STEP_LIMITS[SI[column]];
    if (value >= low && value <= high) return value;
    return { kind: 'between', low, high: Math.round(asTyped(column, high)) };
  } catch (error) {
    if (error instanceof NotUnderstood) return error.fault;
    throw error;
  }
}

/** In the unit that is meant where none is typed. */
function asTyped(column: Column, value: number): number {
  const { usual, known } = FIT_UNITS[column];
  const { multiplier, divisor } = known[usual]!;
  return (value * divisor) / multiplier;
}

type AnyReadings = LampReadings & { readonly speed?: GeneratorReadings['speed'] };
type AnyStep = LoadStep & { readonly rotorSpeed_radps?: number | null };

/** To the last digit, in the same order. */
export function areSame(a: AnyReadings, b: AnyReadings): boolean {
  const flat = ({ speed, steps }: AnyReadings): unknown[] => [
    speed,
    ...steps.flatMap(({ voltage_V, current_A, rotorSpeed_radps }: AnyStep) => {
      return [voltage_V, current_A, rotorSpeed_radps];
    }),
  ];
  const [one, other] = [flat(a), flat(b)];
  return one.length === other.length && one.every((value, i) => value === other[i]);
}

/** Readings as they would be typed. @param number as the language writes it */
export function rowsOf(
  steps: readonly AnyStep[],
  number: (decimal: string) => string,
): FitRow[] {
  const text = (column: Column, value: number | null | undefined): string => {
    if (value === null || value === undefined) return '';
    // As digits alone: no number at a bench is so small that it needs a power of ten.
    return number(String(Number(asTyped(column, value).toPrecision(6))));
  };
  return steps.map(({ rotorSpeed_radps, voltage_V, current_A }) => ({
    speed: text('speed', rotorSpeed_radps),
    volts: text('volts', voltage_V),
    amps: current_A === 0 ? '' : text('amps', current_A),
  }));
}
