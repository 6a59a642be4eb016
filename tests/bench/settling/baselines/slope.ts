/**
 * Two tests of the slope over a rolling window of block means, its standard error widened for
 * first-order autocorrelation of the residuals by √((1+φ)/(1−φ)).
 *
 * significance: steady unless the slope is significant. equivalence: steady only when the
 * confidence interval of slope · window lies inside the tolerance (two one-sided tests,
 * Schuirmann, Journal of Pharmacokinetics and Biopharmaceutics 15(6), 1987; from memory).
 */
import { meanOf } from '#core/metrology/type-a/series.ts';
import { estimateInterval } from '../estimate-interval.ts';
import type { Method } from '../method.ts';
import { gateMethod, type Gate } from './gate.ts';

export interface SlopeTest {
  readonly name: string;
  readonly window_s: number;
  readonly test:
    | { readonly kind: 'significance'; readonly enterBelow: number; readonly leaveAbove: number }
    | { readonly kind: 'equivalence'; readonly tolerance: number };
}

const BLOCK_S = 0.2;
const ONE_SIDED_95 = 1.645;

export function slopeMethod(options: SlopeTest): Method {
  return gateMethod({
    name: options.name,
    lookBack_s: options.window_s,
    createGate: () => createSlopeGate(options),
    estimate: estimateInterval,
  });
}

function createSlopeGate({ window_s, test }: SlopeTest): Gate {
  const length = Math.round(window_s / BLOCK_S);
  const means: number[] = [];
  let block: number[] = [];
  let blockEnd_s: number | null = null;
  let mean_V = 0;
  return {
    mean_V: () => mean_V,
    observe(time_s, voltage_V) {
      blockEnd_s ??= time_s + BLOCK_S;
      block.push(voltage_V);
      if (time_s < blockEnd_s - 1e-9) return 'hold';
      means.push(meanOf(block));
      block = [];
      blockEnd_s = time_s + BLOCK_S;
      if (means.length > length) means.shift();
      mean_V = meanOf(means);
      if (means.length < length) return 'moving';
      const { slope, standardError } = fitSlope(means);
      return test.kind === 'significance'
        ? judgeSignificance(Math.abs(slope) / standardError, test)
        : judgeEquivalence(slope, standardError, test.tolerance);
    },
  };

  function judgeEquivalence(slope: number, standardError: number, tolerance: number) {
    const change = Math.abs(slope) * length;
    const most = tolerance * Math.abs(mean_V);
    if (change + ONE_SIDED_95 * standardError * length < most) return 'steady';
    return change > most ? 'moving' : 'hold';
  }
}

function judgeSignificance(t: number, limits: { enterBelow: number; leaveAbove: number }) {
  if (t < limits.enterBelow) return 'steady';
  return t > limits.leaveAbove ? 'moving' : 'hold';
}

/** Least-squares slope per block, with its widened standard error. */
function fitSlope(values: readonly number[]): { slope: number; standardError: number } {
  const n = values.length;
  const mean = meanOf(values);
  const centre = (n - 1) / 2;
  let product = 0;
  for (let i = 0; i < n; i++) product += (i - centre) * (values[i]! - mean);
  const spread = (n * (n * n - 1)) / 12;
  const slope = product / spread;
  let squares = 0;
  let neighbours = 0;
  let previous = 0;
  for (let i = 0; i < n; i++) {
    const residual = values[i]! - mean - slope * (i - centre);
    squares += residual * residual;
    neighbours += residual * previous;
    previous = residual;
  }
  const phi = Math.min(0.98, Math.max(0, squares > 0 ? neighbours / squares : 0));
  const variance = (squares / (n - 2)) * ((1 + phi) / (1 - phi));
  return { slope, standardError: Math.sqrt(variance / spread) };
}
