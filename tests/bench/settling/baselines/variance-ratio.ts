/**
 * The filtered variance ratio: variance about a filtered value over variance from successive
 * differences, near 1 at steady state with white noise (Cao and Rhinehart, Journal of Process
 * Control 5(6), 1995; from memory).
 */
import { estimateInterval } from '../estimate-interval.ts';
import type { Method } from '../method.ts';
import { gateMethod, type Gate } from './gate.ts';

export interface VarianceRatio {
  readonly name: string;
  /** Readings are averaged over this time before the test sees them; 0: each reading as it is. */
  readonly spacing_s: number;
  readonly filter: number;
  readonly varianceFilter: number;
  readonly differenceFilter: number;
  readonly enterBelow: number;
  readonly leaveAbove: number;
}

export function varianceRatioMethod(options: VarianceRatio): Method {
  return gateMethod({
    name: options.name,
    lookBack_s: 0,
    createGate: () => createVarianceRatio(options),
    estimate: estimateInterval,
  });
}

function createVarianceRatio(options: VarianceRatio): Gate {
  const { spacing_s, filter, varianceFilter, differenceFilter } = options;
  let filtered: number | null = null;
  let previous = 0;
  let variance = 0;
  let difference = 0;
  let blockEnd_s: number | null = null;
  let blockSum = 0;
  let blockCount = 0;

  function judge(value: number): 'steady' | 'moving' | 'hold' {
    if (filtered === null) {
      filtered = value;
      previous = value;
      return 'moving';
    }
    variance += varianceFilter * ((value - filtered) ** 2 - variance);
    difference += differenceFilter * ((value - previous) ** 2 - difference);
    filtered += filter * (value - filtered);
    previous = value;
    const ratio = ((2 - filter) * variance) / difference;
    if (ratio < options.enterBelow) return 'steady';
    return ratio > options.leaveAbove ? 'moving' : 'hold';
  }

  return {
    mean_V: () => filtered ?? 0,
    observe(time_s, voltage_V) {
      blockEnd_s ??= time_s + spacing_s;
      blockSum += voltage_V;
      blockCount += 1;
      if (time_s < blockEnd_s - 1e-9) return 'hold';
      const mean = blockSum / blockCount;
      blockEnd_s = time_s + spacing_s;
      blockSum = 0;
      blockCount = 0;
      return judge(mean);
    },
  };
}
