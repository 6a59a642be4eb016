/**
 * Thinning for display. A screen can't show a thousand samples a second, and five hundred phones
 * should not be sent them. What is left out must not change the picture: of each stretch of time
 * the very samples stay in which a reading or the power is at its lowest or highest, so every peak
 * and dip stays at its true height and time, and power computed from what is shown is a power that
 * was. The newest sample of all stays too: it is what the page shows as now. Nothing is averaged
 * and nothing is made up. Trials never come from thinned samples.
 */
import { samplePower_W } from '#core/signal/sample.ts';
import type { Sample } from '#core/signal/sample.ts';
import type { Samples } from '#core/live-messages.ts';

/** A stretch with no more samples than this is left whole. */
export const WHOLE_COUNT = 8;

/** What the page draws. */
const READINGS: readonly ((sample: Sample) => number | null)[] = [
  (sample) => sample.voltage_V,
  (sample) => sample.current_A,
  (sample) => sample.windSpeed_mps,
  samplePower_W,
];

/** Most samples left of a stretch: lowest, highest and one missing, each reading; and the newest. */
export const MOST_KEPT = 3 * READINGS.length + 1;

/** Thins stretches of `stretch_s`, each beginning at the first sample after the one before. */
export function thin(samples: readonly Sample[], stretch_s: number): Sample[] {
  const kept: Sample[] = [];
  let from = 0;
  while (from < samples.length) {
    const to = endOfStretch(samples, from, stretch_s);
    const stretch = samples.slice(from, to);
    kept.push(...(stretch.length <= WHOLE_COUNT ? stretch : extremes(stretch)));
    from = to;
  }
  const newest = samples.at(-1);
  if (newest && kept.at(-1) !== newest) kept.push(newest);
  return kept;
}

function endOfStretch(samples: readonly Sample[], from: number, stretch_s: number): number {
  const end_s = (samples[from]?.time_s ?? 0) + stretch_s;
  let to = from + 1;
  while ((samples[to]?.time_s ?? Infinity) < end_s) to++;
  return to;
}

function extremes(stretch: readonly Sample[]): Sample[] {
  const keep = new Set<number>();
  for (const reading of READINGS) {
    for (const index of extremeIndices(stretch.map(reading))) keep.add(index);
  }
  return stretch.filter((_, index) => keep.has(index));
}

/** Where the values are lowest, highest and first missing. */
function extremeIndices(values: readonly (number | null)[]): number[] {
  let lowest = -1;
  let highest = -1;
  for (const [index, value] of values.entries()) {
    if (value === null) continue;
    if (lowest === -1 || value < (values[lowest] ?? value)) lowest = index;
    if (highest === -1 || value > (values[highest] ?? value)) highest = index;
  }
  return [lowest, highest, values.indexOf(null)].filter((index) => index !== -1);
}

/** The columns of a message. */
export function toColumns(samples: readonly Sample[]): Samples {
  return {
    time_s: samples.map((sample) => sample.time_s),
    voltage_V: samples.map((sample) => sample.voltage_V),
    current_A: samples.map((sample) => sample.current_A),
    windSpeed_mps: samples.map((sample) => sample.windSpeed_mps),
  };
}
