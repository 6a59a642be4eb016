/** A meter that a person reads: one range of it, and how well its reading is known (Type B). */
import { z } from 'zod';
import { meterLimit } from './meter-comparison.ts';
import { ofStep, rectangular } from './tolerance.ts';

/** In the SI unit of what the meter measures. */
export const MeterSchema = z.strictObject({
  /** The largest reading of the range. */
  range: z.number().positive(),
  /** Worth of the last digit in this range. */
  resolution: z.number().positive(),
  /** ± part of the reading, as a fraction. */
  relative: z.number().min(0).max(1),
  /** ± so many counts of the last digit. */
  counts: z.number().min(0).max(1000),
});
export type Meter = z.infer<typeof MeterSchema>;

/** A number as a person wrote it down: 2.3 was written to 0.1, whatever the meter showed. */
export const WrittenSchema = z.strictObject({ value: z.number(), step: z.number().positive() });
export type Written = z.infer<typeof WrittenSchema>;

/** Whether the range can't have shown this reading, SI. */
export function isBeyondRange({ range }: Meter, value: number): boolean {
  return Math.abs(value) > range * (1 + 1e-9);
}

/**
 * Standard uncertainty of a reading, from the limits ±(part of reading + counts) as one rectangle
 * (JCGM 100:2008 (GUM), 4.3.7, example 2). Counts of one or more hold what the last digit hides;
 * else the last digit is added, as is what was lost in writing down. All readings of one range
 * share it: taking more of them does not average it away.
 */
export function meterUncertainty(meter: Meter, { value, step }: Written): number {
  const { resolution, counts } = meter;
  return Math.hypot(
    rectangular(meterLimit(meter, { value, resolution })),
    counts < 1 ? ofStep(resolution) : 0,
    step > resolution ? ofStep(step) : 0,
  );
}
