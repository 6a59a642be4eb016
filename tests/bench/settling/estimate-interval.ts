/** Mean voltage over an interval with the core's own Type A evaluation. */
import { estimateMean } from '#core/metrology/type-a/mean-estimate.ts';
import { meanOf } from '#core/metrology/type-a/series.ts';
import type { Sample } from '#core/signal/sample.ts';
import type { FoundPlateau } from './method.ts';
import type { Interval } from './recording.ts';

/** Readings are averaged in blocks of this length first: the noise's memory is longer. */
const BLOCK_S = 0.2;
/** Six standard deviations of normal noise, in median absolute deviations; at least 2 %. */
const OUTLIER_DEVIATIONS = 6 * 1.4826;
const LEAST_OUTLIER = 0.02;

type VoltageEstimate = Pick<
  FoundPlateau,
  'voltage_V' | 'standardUncertainty_V' | 'degreesOfFreedom'
>;

/** Spikes and dropouts, outliers by the median absolute deviation, do not count. */
export function estimateInterval(samples: readonly Sample[], interval: Interval): VoltageEstimate {
  const readings = readingsIn(samples, interval);
  const values = Float64Array.from(readings, (reading) => reading.voltage_V);
  const middle = medianOf(values);
  const spread = medianOf(values.map((value) => Math.abs(value - middle)));
  const furthest = Math.max(OUTLIER_DEVIATIONS * spread, LEAST_OUTLIER * middle);
  const blocks: number[][] = [];
  for (const { time_s, voltage_V } of readings) {
    if (Math.abs(voltage_V - middle) > furthest) continue;
    (blocks[Math.floor((time_s - interval.start_s) / BLOCK_S)] ??= []).push(voltage_V);
  }
  const means = blocks.filter((block) => block !== undefined).map(meanOf);
  const estimate = estimateMean(means, 0);
  return {
    voltage_V: estimate.mean,
    standardUncertainty_V: estimate.standardUncertainty,
    degreesOfFreedom: estimate.degreesOfFreedom,
  };
}

function readingsIn(samples: readonly Sample[], { start_s, end_s }: Interval) {
  const readings: { time_s: number; voltage_V: number }[] = [];
  for (let i = firstAt(samples, start_s); i < samples.length; i++) {
    const { time_s, voltage_V } = samples[i]!;
    if (time_s >= end_s) break;
    if (voltage_V !== null) readings.push({ time_s, voltage_V });
  }
  return readings;
}

function medianOf(values: Float64Array): number {
  const sorted = values.toSorted();
  return sorted[sorted.length >> 1] ?? NaN;
}

/** Index of the first sample at or after this time. */
function firstAt(samples: readonly Sample[], time_s: number): number {
  let low = 0;
  let high = samples.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (samples[middle]!.time_s < time_s) low = middle + 1;
    else high = middle;
  }
  return low;
}
