/** How well an anemometer knows the wind (Type B), and from where on it turns at all. */
import { z } from 'zod';
import { rectangular } from '../../instrument/tolerance.ts';

export const AnemometerSchema = z
  .strictObject({
    /** In less wind it stands still: its reading means nothing. */
    startsAt_mps: z.number().min(0).max(5),
    /** ± part of the reading, as a fraction, and ± this much. */
    relative: z.number().min(0).max(0.5),
    absolute_mps: z.number().min(0).max(5),
  })
  .readonly();
export type Anemometer = z.infer<typeof AnemometerSchema>;

/** Of the cheap kinds (common practice, no source). */
export const ANEMOMETERS = {
  vane: { startsAt_mps: 0.3, relative: 0.03, absolute_mps: 0.1 },
  cups: { startsAt_mps: 0.2, relative: 0.05, absolute_mps: 0.1 },
} as const satisfies Record<string, Anemometer>;

/** Whether the reading tells of the wind. */
export function isTurning({ startsAt_mps }: Anemometer, reading_mps: number): boolean {
  return reading_mps > startsAt_mps;
}

/**
 * Standard uncertainty from the limits ±(part of reading + fixed) as one rectangle (JCGM 100:2008
 * (GUM), 4.3.7): the same instrument reads all trials, so taking more of them does not lessen it.
 */
export function anemometerUncertainty_mps(anemometer: Anemometer, reading_mps: number): number {
  return rectangular(anemometer.relative * Math.abs(reading_mps) + anemometer.absolute_mps);
}
