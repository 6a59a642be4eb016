/**
 * The form for readings of two meters: from what was typed to readings, or to what is wrong at
 * which field; and from meters that are known back to the form.
 */
import { z } from 'zod';
import { conversionOf } from '#protocol/quantity.ts';
import { decimalText } from '../instrument/decimal-text.ts';
import type { Meter } from '../instrument/meter.ts';
import {
  NotUnderstood,
  readTyped,
  type TypedFault,
  type TypedNumber,
  type TypedUnits,
} from '../metrology/typed-number.ts';
import { isBeyondRange } from '../instrument/meter.ts';
import { MOST_READINGS, type KeyedReadings, type Meters } from './keyed.ts';

export const LONGEST_TYPED = 40;
const typed = z.string().max(LONGEST_TYPED);

/** As the meter and its manual say it, in the unit that its readings are typed in. */
export const MeterFormSchema = z.strictObject({
  unit: z.string().max(8),
  /** The largest reading of the range that is set: "20". */
  range: typed,
  /** Worth of the last digit: "0.01". */
  lastDigit: typed,
  /** Accuracy ±(percent of the reading + counts of the last digit). */
  percent: typed,
  counts: typed,
});
export type MeterForm = z.infer<typeof MeterFormSchema>;

export const KeyedFormSchema = z.strictObject({
  runId: z.string().min(1).max(200).nullable(),
  meters: z.strictObject({
    voltage: MeterFormSchema,
    current: MeterFormSchema,
    /** Null: no anemometer. */
    windSpeed: MeterFormSchema.nullable(),
  }),
  /** Rows in which nothing is typed are passed over. */
  readings: z
    .array(z.strictObject({ voltage: typed, current: typed, windSpeed: typed }))
    .max(MOST_READINGS),
  didNotTurn: z.boolean(),
  note: z.string().max(500),
});
export type KeyedForm = z.infer<typeof KeyedFormSchema>;

/** What is wrong with a field, for a page to say in its own language; numbers with their unit. */
export type KeyedFault =
  | TypedFault
  | { readonly kind: 'nothing-read' }
  | { readonly kind: 'not-above-zero' }
  | { readonly kind: 'below-zero' }
  | { readonly kind: 'out-of-bounds'; readonly most: number; readonly unit: '%' | 'counts' }
  | { readonly kind: 'digit-beyond-range' }
  | { readonly kind: 'no-meter-is-exact' }
  | { readonly kind: 'signs-differ' }
  | { readonly kind: 'wind-without-meter' }
  | { readonly kind: 'beyond-range'; readonly reading: string; readonly range: string }
  | { readonly kind: 'between-steps'; readonly reading: string; readonly step: string };

export interface KeyedRemark {
  /** Path to the field: "meters.voltage.range", "readings.0.current". */
  readonly field: string;
  readonly fault: KeyedFault;
}

class Unfit extends Error {
  readonly fault: KeyedFault;

  constructor(fault: KeyedFault) {
    super(fault.kind);
    this.fault = fault;
  }
}

const AS_IT_IS = { multiplier: 1, divisor: 1 };

/** Units that can be typed, by quantity: as people write them, and as the table of units has them. */
const SPELLINGS = {
  voltage: { V: 'V', mV: 'mV' },
  current: { A: 'A', mA: 'mA', µA: 'uA' },
  windSpeed: { 'm/s': 'mps', 'km/h': 'kmph' },
} as const;
type MeterName = keyof typeof SPELLINGS;

/** The units that a meter's readings can be typed in, the first as a rule. */
export function unitsOfMeter(meter: MeterName): readonly string[] {
  return Object.keys(SPELLINGS[meter]);
}

const METER_OF = { voltage_V: 'voltage', current_A: 'current', windSpeed_mps: 'windSpeed' } as const;

/** What a value of this quantity can be typed in. @param usual the unit meant where none is typed */
export function quantityUnits(quantity: keyof typeof METER_OF, usual: string): TypedUnits {
  const [first = '', ...others] = unitsOfMeter(METER_OF[quantity]);
  return typedUnits(METER_OF[quantity], others.includes(usual) ? usual : first);
}

function typedUnits(meter: MeterName, usual: string): TypedUnits {
  const known = Object.entries(SPELLINGS[meter]).map(([symbol, unit]) => {
    return [symbol, conversionOf(meter, unit) ?? AS_IT_IS] as const;
  });
  return { usual, known: Object.fromEntries(known) };
}

const PERCENT: TypedUnits = { usual: '%', known: { '%': { multiplier: 1, divisor: 100 } } };
const COUNTS: TypedUnits = { usual: '', known: { '': AS_IT_IS } };
const MOST_PERCENT = 20;
const MOST_COUNTS = 100;

/** Readings where all is well, else a remark for every field where it is not. */
export function readKeyedForm(
  form: KeyedForm,
): { readonly readings: KeyedReadings } | { readonly remarks: readonly KeyedRemark[] } {
  const remarks: KeyedRemark[] = [];
  /** What `read` gives, or a remark at the field and null. */
  const at = <T>(field: string, read: () => T): T | null => {
    try {
      return read();
    } catch (error) {
      if (!(error instanceof NotUnderstood) && !(error instanceof Unfit)) throw error;
      remarks.push({ field, fault: error.fault });
      return null;
    }
  };
  const meters = {
    voltage: readMeter('voltage', form.meters.voltage, at),
    current: readMeter('current', form.meters.current, at),
    windSpeed: form.meters.windSpeed && readMeter('windSpeed', form.meters.windSpeed, at),
  };
  const readings = form.readings.flatMap((row, place) => {
    const { windSpeed: wind } = row;
    if ([row.voltage, row.current, wind].every((text) => text.trim() === '')) return [];
    const one = (name: MeterName) =>
      at(`readings.${place}.${name}`, () => readReading(name, row[name], form, meters[name]));
    const [voltage, current] = [one('voltage'), one('current')];
    const windSpeed = wind.trim() === '' ? null : one('windSpeed');
    if (voltage === null || current === null) return [];
    if (voltage.value * current.value < 0) {
      remarks.push({ field: `readings.${place}.current`, fault: { kind: 'signs-differ' } });
    }
    return [{ voltage, current, windSpeed }];
  });
  if (readings.length === 0 && remarks.length === 0 && !form.didNotTurn) {
    remarks.push({ field: 'readings.0.voltage', fault: { kind: 'nothing-read' } });
  }
  const { voltage, current, windSpeed } = meters;
  if (remarks.length > 0 || voltage === null || current === null) return { remarks };
  const note = form.note.trim() || null;
  const used = { voltage, current, windSpeed };
  const { runId, didNotTurn } = form;
  return { readings: { runId, meters: used, readings, didNotTurn, note } };
}

type At = <T>(field: string, read: () => T) => T | null;

function readMeter(name: MeterName, form: MeterForm, at: At): Meters['voltage'] | null {
  const units = typedUnits(name, form.unit);
  const field = (part: string) => `meters.${name}.${part}`;
  const range = at(field('range'), () => above0(readTyped(form.range, units, '20').value));
  const resolution = at(field('lastDigit'), () =>
    above0(readTyped(form.lastDigit, units, '0.01').value),
  );
  const relative = at(field('percent'), () => {
    const { value } = readTyped(form.percent, PERCENT, '0.8');
    return within(value * 100, MOST_PERCENT, '%') / 100;
  });
  const counts = at(field('counts'), () =>
    within(readTyped(form.counts, COUNTS, '2').value, MOST_COUNTS, 'counts'),
  );
  if (range === null || resolution === null || relative === null || counts === null) return null;
  return at(field(range > resolution ? 'percent' : 'lastDigit'), () => {
    if (range <= resolution) {
      throw new Unfit({ kind: 'digit-beyond-range' });
    }
    if (relative === 0 && counts === 0) throw new Unfit({ kind: 'no-meter-is-exact' });
    return { range, resolution, relative, counts, unit: units.usual };
  });
}

function above0(value: number): number {
  if (value > 0) return value;
  throw new Unfit({ kind: 'not-above-zero' });
}

function within(value: number, most: number, unit: '%' | 'counts'): number {
  if (value >= 0 && value <= most) return value;
  throw new Unfit({ kind: 'out-of-bounds', most, unit });
}

/** @throws NotUnderstood @throws Unfit for what the meter can't have shown in its range */
function readReading(
  name: MeterName,
  text: string,
  form: KeyedForm,
  meter: Meter | null,
): TypedNumber {
  const unit = form.meters[name]?.unit ?? unitsOfMeter(name)[0] ?? '';
  const units = typedUnits(name, unit);
  const reading = readTyped(text, units, name === 'current' ? '43.1' : '2.31');
  if (name === 'windSpeed' && reading.value < 0) throw new Unfit({ kind: 'below-zero' });
  if (meter === null) {
    if (name !== 'windSpeed' || form.meters.windSpeed !== null) return reading;
    throw new Unfit({ kind: 'wind-without-meter' });
  }
  const inUnit = (value: number) => `${textIn(name, unit, value)} ${unit}`;
  const shown = inUnit(reading.value);
  if (isBeyondRange(meter, reading.value)) {
    throw new Unfit({ kind: 'beyond-range', reading: shown, range: inUnit(meter.range) });
  }
  const digits = Math.abs(reading.value) / meter.resolution;
  if (Math.abs(digits - Math.round(digits)) > 1e-6) {
    throw new Unfit({ kind: 'between-steps', reading: shown, step: inUnit(meter.resolution) });
  }
  return reading;
}

/** A value in SI as a number of this unit. */
function textIn(name: MeterName, unit: string, value: number): string {
  const { multiplier, divisor } = typedUnits(name, unit).known[unit] ?? AS_IT_IS;
  return decimalText((value * divisor) / multiplier, 6);
}

/** Meters as the form has them, so that nobody types a manual's figures twice. */
export function meterForms({ voltage, current, windSpeed }: Meters): KeyedForm['meters'] {
  return {
    voltage: meterForm('voltage', voltage),
    current: meterForm('current', current),
    windSpeed: windSpeed && meterForm('windSpeed', windSpeed),
  };
}

function meterForm(name: MeterName, meter: Meters['voltage']): MeterForm {
  const { unit, range, resolution, relative, counts } = meter;
  return {
    unit,
    range: textIn(name, unit, range),
    lastDigit: textIn(name, unit, resolution),
    percent: decimalText(100 * relative, 6),
    counts: decimalText(counts, 6),
  };
}
