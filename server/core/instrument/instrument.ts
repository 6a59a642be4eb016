/**
 * What voltage and current are measured with, as far as anybody has said: part of what is recorded,
 * so that a result has the same uncertainty when it is derived again.
 */
import { z } from 'zod';
import { DividerSchema } from './divider.ts';
import { MeterSchema } from './meter.ts';
import { MonitorSchema } from './monitor.ts';
import { ShuntSchema } from './shunt.ts';

/** With nothing flowing, what was read has been taken for zero. */
const isZeroed = z.boolean();

/** Standard uncertainties that somebody gives, of the gain (a ratio) and of the offset (SI). */
export const StatedSchema = z
  .strictObject({
    kind: z.literal('stated'),
    gainUncertainty: z.number().min(0).max(1),
    /** Null: not known. */
    offsetUncertainty: z.number().min(0).nullable(),
  })
  .readonly();
export type Stated = z.infer<typeof StatedSchema>;

const ByMonitorSchema = z
  .strictObject({ kind: z.literal('monitor'), isZeroed, monitor: MonitorSchema })
  .readonly();
const ByMeterSchema = z.strictObject({ kind: z.literal('meter'), meter: MeterSchema }).readonly();

export const VoltageMeansSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('divider'), isZeroed, divider: DividerSchema }).readonly(),
  ByMonitorSchema,
  ByMeterSchema,
  StatedSchema,
]);
export type VoltageMeans = z.infer<typeof VoltageMeansSchema>;

export const CurrentMeansSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('shunt'), isZeroed, shunt: ShuntSchema }).readonly(),
  ByMonitorSchema,
  ByMeterSchema,
  StatedSchema,
]);
export type CurrentMeans = z.infer<typeof CurrentMeansSchema>;

/** Null: nothing is known of it. */
export const InstrumentSchema = z.strictObject({
  voltage: VoltageMeansSchema.nullable(),
  current: CurrentMeansSchema.nullable(),
});
export type Instrument = Readonly<z.infer<typeof InstrumentSchema>>;

export const UNKNOWN_INSTRUMENT: Instrument = { voltage: null, current: null };
