/** How a reading left its plateau: by a step, by creeping away, or by never having been still. */

export interface Departure {
  readonly manner: 'step' | 'creep' | 'drift';
  /** Index of the first value that no longer belongs to the plateau. */
  readonly at: number;
}

/** A line steeper than this is no droop, per second of the level. */
const LEAST_DRIFT_PER_S = 0.0012;

/** A creep must explain the readings better than a step, in units of log likelihood. */
const LEAST_BETTER = 1;

/** Residual sum of squares of the best line through all values. */
function residualOfLine(values: readonly number[]): { residual: number; slope: number } {
  const n = values.length;
  const middle = (n - 1) / 2;
  let sum = 0;
  let squares = 0;
  let weighted = 0;
  for (let i = 0; i < n; i++) {
    sum += values[i]!;
    squares += values[i]! * values[i]!;
    weighted += (i - middle) * values[i]!;
  }
  const spread = (n * (n * n - 1)) / 12;
  const slope = weighted / spread;
  return { residual: squares - (sum * sum) / n - slope * weighted, slope };
}

/** Best "level, then a straight line away from it": where it bends and what it leaves. */
function residualOfCreep(values: readonly number[]): { residual: number; at: number } {
  const n = values.length;
  let best = Infinity;
  let at = n - 1;
  // Regression on max(0, i − bend): sums over the tail, from the end backwards.
  let total = 0;
  let squares = 0;
  for (const value of values) {
    total += value;
    squares += value * value;
  }
  let tail = 0;
  let weighted = 0;
  for (let bend = n - 1; bend >= 0; bend--) {
    // weighted = Σ (i − bend)·value over the tail, updated by one step of the bend.
    weighted += tail;
    tail += values[bend]!;
    const m = n - 1 - bend;
    if (m < 3) continue;
    const ramp = (m * (m + 1)) / 2;
    const rampSquares = (m * (m + 1) * (2 * m + 1)) / 6;
    const cross = weighted - (ramp * total) / n;
    const spread = rampSquares - (ramp * ramp) / n;
    const residual = squares - (total * total) / n - (cross * cross) / spread;
    if (residual < best) {
      best = residual;
      at = bend;
    }
  }
  return { residual: best, at };
}

/** Best split into two levels: what it leaves, and the index of the second's first value. */
export function residualOfStep(values: readonly number[]): { residual: number; at: number } {
  const n = values.length;
  let total = 0;
  let squares = 0;
  for (const value of values) {
    total += value;
    squares += value * value;
  }
  let left = 0;
  let best = Infinity;
  let at = n - 1;
  for (let i = 1; i < n; i++) {
    left += values[i - 1]!;
    const right = total - left;
    const residual = squares - (left * left) / i - (right * right) / (n - i);
    if (residual < best) {
      best = residual;
      at = i;
    }
  }
  return { residual: best, at };
}

function centre(values: readonly number[]): number[] {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return values.map((value) => value - mean);
}

/**
 * Tells the manner in which the values (in units of the level) left: by a step, unless a bend or
 * a straight line explains them clearly better.
 */
export function judgeDeparture(asked: {
  values: readonly number[];
  period_s: number;
  /** Long-run variance in units of the level squared times s. */
  longRunVariance: number;
}): Departure {
  const { values, period_s, longRunVariance } = asked;
  const centred = centre(values);
  const step = residualOfStep(centred);
  const line = residualOfLine(centred);
  const creep = residualOfCreep(centred);
  const left = step.residual - Math.min(line.residual, creep.residual);
  const better = (left * period_s) / (2 * longRunVariance);
  if (better < LEAST_BETTER || Math.abs(line.slope) / period_s < LEAST_DRIFT_PER_S) {
    return { manner: 'step', at: step.at };
  }
  // A bend close to the beginning is a line.
  return { manner: creep.at * period_s < 3 ? 'drift' : 'creep', at: creep.at };
}

/**
 * The slope per second of a straight line that explains a long window about as well as a step
 * does; 0 when a step explains it better or the line is level.
 */
export function rampThrough(asked: {
  values: readonly number[];
  period_s: number;
  longRunVariance: number;
}): number {
  const { values, period_s, longRunVariance } = asked;
  const centred = centre(values);
  const line = residualOfLine(centred);
  const slope = line.slope / period_s;
  const error = Math.sqrt((12 * longRunVariance) / (values.length * period_s) ** 3);
  if (Math.abs(slope) < LEAST_DRIFT_PER_S || Math.abs(slope) < 3 * error) return 0;
  const left = residualOfStep(centred).residual - line.residual;
  const better = (left * period_s) / (2 * longRunVariance);
  return better > -LEAST_BETTER ? slope : 0;
}
