/** What noise alone makes of a change of the reading. */
import { damped, type NoiseModel } from './noise-model.ts';

/**
 * Variance of the difference of two means of the reading itself, each over `length_s`, whose starts
 * are `apart_s` ≥ `length_s` apart. The slow part is taken as one first-order lag of both times.
 */
export function varianceOfReadingChange(
  { logLevel, whiteShare, time_s }: NoiseModel,
  { length_s, apart_s, lag_s }: { length_s: number; apart_s: number; lag_s: number },
): number {
  const memory_s = time_s + lag_s;
  const gap = Math.exp(-(apart_s - length_s) / memory_s);
  const share = 1 - Math.exp(-length_s / memory_s);
  const common = (0.5 * gap * share * share * memory_s) / length_s;
  const slow = (1 - whiteShare) * (damped(length_s, memory_s) - common);
  return (2 * Math.exp(logLevel) * (slow + whiteShare)) / length_s;
}
