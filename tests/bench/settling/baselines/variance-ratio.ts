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

/** The ratio after each value; undefined for the first, which only starts it. */
export function createRatioFilter(
  options: Pick<VarianceRatio, 'filter' | 'varianceFilter' | 'differenceFilter'>,
): (value: number) => number | undefined {
  const { filter, varianceFilter, differenceFilter } = options;
  let filtered: number | null = null;
  let previous = 0;
  let variance = 0;
  let difference = 0;
  return (value) => {
    if (filtered === null) {
      filtered = value;
      previous = value;
      return undefined;
    }
    variance += varianceFilter * ((value - filtered) ** 2 - variance);
    difference += differenceFilter * ((value - previous) ** 2 - difference);
    filtered += filter * (value - filtered);
    previous = value;
    return ((2 - filter) * variance) / difference;
  };
}

function createVarianceRatio(options: VarianceRatio): Gate {
  const ratioAfter = createRatioFilter(options);
  let mean_V = 0;
  let blockEnd_s: number | null = null;
  let sum = 0;
  let count = 0;
  return {
    mean_V: () => mean_V,
    observe(time_s, voltage_V) {
      blockEnd_s ??= time_s + options.spacing_s;
      sum += voltage_V;
      count += 1;
      if (time_s < blockEnd_s - 1e-9) return 'hold';
      mean_V = sum / count;
      blockEnd_s = time_s + options.spacing_s;
      sum = 0;
      count = 0;
      const ratio = ratioAfter(mean_V);
      if (ratio === undefined) return 'moving';
      if (ratio < options.enterBelow) return 'steady';
      return ratio > options.leaveAbove ? 'moving' : 'hold';
    },
  };
}
