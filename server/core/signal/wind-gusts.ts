/**
 * What a stretch has read of its gusts: the mean of v³ beside the mean of v, and how often the wind
 * meter gave another number. A counter that holds its counts gives few, and has averaged the gusts
 * away before they are read.
 */
import { z } from 'zod';

export const WindGustsSchema = z.object({
  /** Mean of v³ over the samples of the same stretch, m³/s³. */
  meanCube_m3ps3: z.number(),
  /** Changes of the reading a second. */
  readings_Hz: z.number(),
});
export type WindGusts = Readonly<z.infer<typeof WindGustsSchema>>;

/** Of a block of samples, or of blocks merged. NaN: no reading of the wind. */
export interface BlockGusts {
  readonly meanCube_m3ps3: number;
  /** How often the reading changed. */
  readonly changes: number;
}

export const NO_GUSTS: BlockGusts = { meanCube_m3ps3: NaN, changes: 0 };

/** Blocks count alike, as they do in the mean of v; those without a reading are left out. */
export function mergeGusts(parts: readonly BlockGusts[]): BlockGusts {
  let [sum, count, changes] = [0, 0, 0];
  for (const part of parts) {
    changes += part.changes;
    if (Number.isNaN(part.meanCube_m3ps3)) continue;
    sum += part.meanCube_m3ps3;
    count += 1;
  }
  return { meanCube_m3ps3: count === 0 ? NaN : sum / count, changes };
}

/** Of a stretch of so many seconds; undefined where the wind was not read. */
export function gustsIn(parts: readonly BlockGusts[], length_s: number): WindGusts | undefined {
  const { meanCube_m3ps3, changes } = mergeGusts(parts);
  if (Number.isNaN(meanCube_m3ps3) || !(length_s > 0)) return undefined;
  return { meanCube_m3ps3, readings_Hz: changes / length_s };
}
