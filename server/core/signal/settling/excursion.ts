/**
 * Short excursions: a spike or a dropout that fills whole blocks, as it does at low rates. A
 * rotor's inertia lets a reading neither jump nor come back within a fraction of a second.
 */
import { CURRENT, POWER, VOLTAGE, type Block } from './block.ts';
import { columnOf } from './history.ts';

/** What stays away longer than this is a change, not an excursion. */
const LONGEST_S = 0.9;
/** Least height, as a share of the level and in typical steps from block to block. */
const LEAST_SHARE = 0.04;
const LEAST_STEPS = 7;

/** Blocks at the end of `blocks` that stand off what came before, as long as they may return. */
export interface Excursions {
  count: number;
}

function medianOf(values: number[]): number {
  values.sort((a, b) => a - b);
  return values.length > 0 ? values[values.length >> 1]! : NaN;
}

function standsOff(before: readonly Block[], newest: Block, column: number): boolean {
  const values = columnOf(before, column);
  const value = newest.means[column]!;
  if (values.length < 5 || Number.isNaN(value)) return false;
  const level = medianOf(values.slice(-5));
  const step = medianOf(values.slice(1).map((one, i) => Math.abs(one - values[i]!)));
  return Math.abs(value - level) > Math.max(LEAST_SHARE * Math.abs(level), LEAST_STEPS * step);
}

/**
 * Looks at the newest block. True while an excursion may be under way: no decision should rest on
 * it. When the readings have come back, the blocks in between are blanked.
 */
export function watchExcursions(state: Excursions, blocks: readonly Block[]): boolean {
  const newest = blocks.at(-1)!;
  const run = blocks.slice(blocks.length - 1 - state.count, -1);
  const end = blocks.length - 1 - state.count;
  const before = blocks.slice(Math.max(end - 15, 0), end);
  if (standsOff(before, newest, VOLTAGE) || standsOff(before, newest, CURRENT)) {
    state.count++;
    if (newest.end_s - (run[0] ?? newest).start_s <= LONGEST_S) return true;
    state.count = 0;
    return false;
  }
  for (const block of run) block.means[VOLTAGE] = block.means[CURRENT] = block.means[POWER] = NaN;
  state.count = 0;
  return false;
}
