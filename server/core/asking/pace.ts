import type { Frame } from '#protocol/frame.ts';
import type { Configuration } from '../configuration.ts';

type Pace = Extract<Frame, { kind: 'pace' }>;

/** The time between samples that the operator wants, as near as the board can come to it, µs. */
export function wantedPeriod_us(
  { sampleRate_Hz }: Pick<Configuration, 'sampleRate_Hz'>,
  { period_us, shortest_us, longest_us }: Omit<Pace, 'kind'>,
): number {
  // Limits that contradict each other say nothing: the board is left as it is.
  if (shortest_us > longest_us) return period_us;
  return Math.min(Math.max(Math.round(1e6 / sampleRate_Hz), shortest_us), longest_us);
}
