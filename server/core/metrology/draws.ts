/**
 * Propagation of distributions by random draws (JCGM 101:2008), to see whether the linear form with
 * its coverage factor is good enough.
 */
import { meanOf, standardDeviationOf } from './type-a/series.ts';

export interface Drawn {
  readonly mean: number;
  readonly standardUncertainty: number;
  /** The probabilistically symmetric 95 % interval (7.7). */
  readonly low: number;
  readonly high: number;
}

/** Draws of the result, one a call (JCGM 101, 7.2 to 7.7). @param count at least 100 */
export function drawResult(draw: () => number, count: number): Drawn {
  const draws = Float64Array.from({ length: count }, draw).sort();
  const inside = Math.round(0.95 * count);
  const below = Math.round((count - inside) / 2);
  return {
    mean: meanOf(draws),
    standardUncertainty: standardDeviationOf(draws),
    low: draws[below] ?? NaN,
    high: draws[Math.min(below + inside, count - 1)] ?? NaN,
  };
}

/**
 * How far the ends of an interval may lie from what was drawn, in standard uncertainties. Half of
 * the last place, as JCGM 101, 7.9.2 has it, is 0.05 to 0.5 of them for one digit and a tenth of
 * that for two: pages show one, and two where the first is small.
 */
const TOLERANCE = 0.1;

/** Whether both ends agree with what was drawn (JCGM 101, 8.1). */
export function isGoodEnough(
  interval: { readonly low: number; readonly high: number },
  { low, high, standardUncertainty }: Drawn,
): boolean {
  const most = TOLERANCE * standardUncertainty;
  return Math.abs(interval.low - low) <= most && Math.abs(interval.high - high) <= most;
}
