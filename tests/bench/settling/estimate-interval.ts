/** Mean voltage over an interval with the core's own Type A evaluation. */
import { estimateMean } from '#core/metrology/type-a/mean-estimate.ts';
import { meanOf } from '#core/metrology/type-a/series.ts';
import type { Sample } from '#core/signal/sample.ts';
import type { FoundPlateau } from './method.ts';
import type { Interval } from './recording.ts';

/** Readings are averaged in blocks of this length first: the noise's memory is longer. */
const BLOCK_S = 0.2;

type VoltageEstimate = Pick<
  FoundPlateau,
  'voltage_V' | 'standardUncertainty_V' | 'degreesOfFreedom'
>;

export function estimateInterval(
  samples: readonly Sample[],
  { start_s, end_s }: Interval,
): VoltageEstimate {
  const blocks: number[][] = [];
  for (let i = firstAt(samples, start_s); i < samples.length; i++) {
    const { time_s, voltage_V } = samples[i]!;
    if (time_s >= end_s) break;
    if (voltage_V === null) continue;
    const block = Math.floor((time_s - start_s) / BLOCK_S);
    (blocks[block] ??= []).push(voltage_V);
  }
  const means = blocks.filter((block) => block !== undefined).map(meanOf);
  const estimate = estimateMean(means, 0);
  return {
    voltage_V: estimate.mean,
    standardUncertainty_V: estimate.standardUncertainty,
    degreesOfFreedom: estimate.degreesOfFreedom,
  };
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
