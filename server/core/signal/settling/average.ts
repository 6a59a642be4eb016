/** The mean of what is read now, when a person wants it though it has not settled. */
import { estimateFromBatches } from '../../metrology/type-a/batch-means.ts';
import { meanOf } from '../../metrology/type-a/series.ts';
import type { Estimate, Plateau } from '../plateau.ts';
import { gustsIn } from '../wind-gusts.ts';
import { COLUMNS, POWER, VOLTAGE, type Block } from './block.ts';
import { alignedColumn, HISTORY_S, indexSince } from './history.ts';
import { isRotorStill } from './sight.ts';
import { stepOf, type Detector } from './state.ts';

/** now: the last seconds; cycles: as many whole swings as are remembered. */
export type Span = 'now' | 'cycles';

const NOW_S = 10;
const SHORTEST_S = 3;
const BATCHES = 5;
/** Swings slower than this are wander, not a cycle, s. */
const LONGEST_CYCLE_S = 12;
const FEWEST_CYCLES = 3;

/**
 * Means over the newest stretch since the last change, each with the uncertainty that its own
 * scatter and creep give. Nothing is borrowed from plateaus that were steady.
 * @param since_s what was read before is in another trial
 * @returns null when there is too little to average
 */
export function averageNow(state: Detector, span: Span, since_s: number): Plateau | null {
  const { history } = state;
  const end_s = history.blocks.at(-1)?.end_s ?? 0;
  const longest_s = span === 'now' ? NOW_S : HISTORY_S;
  const from = indexSince(history, Math.max(state.origin_s, since_s, end_s - longest_s));
  const blocks = history.blocks.slice(from);
  const period_s = blocks.length === 0 ? 0 : (end_s - blocks[0]!.start_s) / blocks.length;
  if (blocks.length * period_s < SHORTEST_S || blocks.length < 2 * BATCHES) return null;
  const cycle = span === 'cycles' ? cycleOf(blocks, period_s) : null;
  const batches = cycle === null ? BATCHES : Math.floor(blocks.length / cycle);
  const used = cycle === null ? blocks : blocks.slice(-Math.round(batches * cycle));
  const start_s = used[0]!.start_s;
  const windGusts = gustsIn(used.map(({ gusts }) => gusts), end_s - start_s);
  return {
    start_s,
    end_s,
    declared_s: end_s,
    sampleCount: used.reduce((sum, block) => sum + block.sampleCount, 0),
    rotorStill: isRotorStill(state, history.blocks.length - used.length),
    estimates: estimatesOf(state, used, batches),
    ...(windGusts === undefined ? {} : { windGusts }),
  };
}

function estimatesOf(state: Detector, blocks: readonly Block[], batches: number) {
  const estimates: Record<string, Estimate> = {};
  COLUMNS.forEach((quantity, column) => {
    const values = alignedColumn(blocks, column);
    if (values.length < batches) return;
    const estimate = estimateFromBatches(values, batches);
    const floor = column === POWER ? 0 : stepOf(state, column) / Math.sqrt(12);
    const standardUncertainty = Math.max(estimate.standardUncertainty, floor);
    estimates[quantity] = { ...estimate, standardUncertainty };
  });
  return estimates as Plateau['estimates'];
}

/**
 * Blocks in one swing of power, parts of one included: the first peak of its autocorrelation behind
 * the first crossing of zero; null when fewer than three such swings are there.
 */
function cycleOf(blocks: readonly Block[], period_s: number): number | null {
  const power = alignedColumn(blocks, POWER);
  const values = power.length > 0 ? power : alignedColumn(blocks, VOLTAGE);
  const mean = meanOf(values);
  const longest = Math.min(
    Math.floor(LONGEST_CYCLE_S / period_s),
    Math.floor(values.length / FEWEST_CYCLES),
  );
  const likeness = Array.from({ length: longest + 1 }, (_, lag) => alikeAt(values, mean, lag));
  const crossing = likeness.findIndex((value) => value < 0);
  if (crossing < 0) return null;
  const after = likeness.slice(crossing);
  const peak = Math.max(...after);
  return peak > 0 ? summitAt(likeness, crossing + after.indexOf(peak)) : null;
}

/** Where the parabola through the highest value and its neighbours is highest. */
function summitAt(values: readonly number[], at: number): number {
  const [before, top, after] = [values[at - 1], values[at]!, values[at + 1]];
  if (before === undefined || after === undefined) return at;
  const bend = before - 2 * top + after;
  return bend < 0 ? at + (before - after) / (2 * bend) : at;
}

/** Mean product of deviations `lag` apart. */
function alikeAt(values: readonly number[], mean: number, lag: number): number {
  let sum = 0;
  for (let i = 0; i + lag < values.length; i++) {
    sum += (values[i]! - mean) * (values[i + lag]! - mean);
  }
  return sum / (values.length - lag);
}
