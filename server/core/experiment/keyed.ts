/**
 * A trial without a board: readings of two meters that a person keyed in, and what they make.
 *
 * The scatter of several readings is a Type A evaluation, the meter's accuracy a Type B one
 * (JCGM 100:2008 (GUM), 4.2 and 4.3.7). A single reading has no scatter to look at: its uncertainty
 * is the meter's alone and understates what a second reading would show. Such a trial has a
 * `sampleCount` of at most 1, and whoever shows it says so.
 */
import { z } from 'zod';
import {
  isBeyondRange,
  meterUncertainty,
  MeterSchema,
  WrittenSchema,
  type Meter,
  type Written,
} from '../instrument/meter.ts';
import { combine, type Component } from '../metrology/combine.ts';
import { scatterOfMean, scatterOfProduct } from '../metrology/type-a/independent.ts';
import { meanOf } from '../metrology/type-a/series.ts';
import type { Obstacle } from '../obstacle.ts';
import { notNow } from './not-now.ts';
import type { DerivedTrial } from './trial-life.ts';
import type { MeasuredValue } from '../metrology/measured-value.ts';

export const MOST_READINGS = 20;

/** With the unit that its readings are typed in: "mA". */
const ReadMeterSchema = MeterSchema.extend({ unit: z.string().min(1).max(8) });

export const MetersSchema = z.strictObject({
  voltage: ReadMeterSchema,
  current: ReadMeterSchema,
  /** Null: no anemometer. */
  windSpeed: ReadMeterSchema.nullable(),
});
export type Meters = z.infer<typeof MetersSchema>;

/** SI units. Voltage and current of a row were read at the same moment. */
export const KeyedReadingsSchema = z.strictObject({
  runId: z.string().min(1).max(200).nullable(),
  meters: MetersSchema,
  readings: z
    .array(
      z.strictObject({
        voltage: WrittenSchema,
        current: WrittenSchema,
        windSpeed: WrittenSchema.nullable(),
      }),
    )
    .max(MOST_READINGS),
  /** Somebody has seen that the rotor does not turn; the meters need not be read then. */
  didNotTurn: z.boolean(),
  note: z.string().max(500).nullable(),
});
export type KeyedReadings = z.infer<typeof KeyedReadingsSchema>;

/** What stands against the readings as they are; null when nothing does. */
export function keyedObstacle({ meters, readings, didNotTurn }: KeyedReadings): Obstacle | null {
  if (readings.length === 0 && !didNotTurn) return notNow('no-reading');
  const isBeyond = (meter: Meter | null, reading: Written | null): boolean =>
    reading !== null && (meter === null || isBeyondRange(meter, reading.value));
  const isWrong = readings.some(
    ({ voltage, current, windSpeed }) =>
      isBeyond(meters.voltage, voltage) ||
      isBeyond(meters.current, current) ||
      isBeyond(meters.windSpeed, windSpeed),
  );
  return isWrong ? notNow('beyond-meter') : null;
}

/** What the readings alone say of a trial. */
export type KeyedTrial = Omit<
  DerivedTrial,
  'state' | 'recorded' | 'start_s' | 'end_s' | 'declared_s'
>;

export function keyedTrial({ meters, readings, didNotTurn }: KeyedReadings): KeyedTrial {
  // Where nothing turns and nothing was read: no voltage and no current, known to the meters' limits.
  const atRest = readings.length === 0;
  const voltages = atRest ? [nothing(meters.voltage)] : readings.map(({ voltage }) => voltage);
  const currents = atRest ? [nothing(meters.current)] : readings.map(({ current }) => current);
  const winds = readings.flatMap(({ windSpeed }) => windSpeed ?? []);
  return {
    sampleCount: readings.length,
    basis: 'keyed',
    rotorStill: didNotTurn || [...voltages, ...currents].every(({ value }) => value === 0),
    voltage_V: meanOfReadings(meters.voltage, voltages),
    current_A: meanOfReadings(meters.current, currents),
    power_W: powerOf(meters, voltages, currents),
    windSpeed_mps:
      meters.windSpeed === null || winds.length === 0
        ? null
        : meanOfReadings(meters.windSpeed, winds),
    rotorSpeed_radps: null,
    ripple: null,
  };
}

function nothing({ resolution }: Meter): Written {
  return { value: 0, step: resolution };
}

function meanOfReadings(meter: Meter, readings: readonly Written[]): MeasuredValue {
  const values = readings.map(({ value }) => value);
  return measured(meanOf(values), [scatterOfMean(values), ofMeter(meter, readings)]);
}

/**
 * Power as the mean of the pairs' products, as a board's samples have it. The scatter is taken with
 * the covariance of the pairs; two meters are wrong independently of each other. The last component
 * is what is left where both read nothing (GUM, 5.1.2, note: the term of second order).
 */
function powerOf(
  meters: KeyedReadings['meters'],
  voltages: readonly Written[],
  currents: readonly Written[],
): MeasuredValue {
  const v = voltages.map(({ value }) => value);
  const i = currents.map(({ value }) => value);
  const ofVoltmeter = ofMeter(meters.voltage, voltages);
  const ofAmmeter = ofMeter(meters.current, currents);
  return measured(meanOf(v.map((voltage, k) => voltage * (i[k] ?? NaN))), [
    scatterOfProduct(v, i),
    times(meanOf(i), ofVoltmeter),
    times(meanOf(v), ofAmmeter),
    times(ofVoltmeter.u, ofAmmeter),
  ]);
}

/** Where one was written with fewer digits than another, a closing zero was left off. */
function ofMeter(meter: Meter, readings: readonly Written[]): Component {
  const value = meanOf(readings.map((reading) => reading.value));
  const step = Math.min(...readings.map((reading) => reading.step));
  return { u: meterUncertainty(meter, { value, step }), degreesOfFreedom: Infinity };
}

function times(factor: number, { u, degreesOfFreedom }: Component): Component {
  return { u: Math.abs(factor) * u, degreesOfFreedom };
}

function measured(value: number, components: readonly (Component | null)[]): MeasuredValue {
  const { u, degreesOfFreedom } = combine(components.filter((one) => one !== null));
  return { value, standardUncertainty: u, degreesOfFreedom };
}
