/**
 * Short excursions: a spike or a dropout that fills whole blocks, as it does at low rates. A
 * rotor's inertia lets a reading neither jump nor come back within a fraction of a second.
 */
import { CURRENT, POWER, VOLTAGE, type Block } from './block.ts';
import { sortFew } from './few.ts';
import { reckonFrom, type History } from './history.ts';

/** What stays away longer than this is a change, not an excursion. */
const LONGEST_S = 0.9;
/** The same where nothing is read at once, as behind an open contact: a rotor runs down slowly. */
const LONGEST_NOTHING_S = 2;
/** Less than this share of the level is nothing; more than that, at once, is no rotor that starts. */
const NOTHING = 0.02;
const AT_ONCE = 0.5;
/** Least height, as a share of the level and in typical steps from block to block. */
const LEAST_SHARE = 0.04;
const LEAST_STEPS = 7;
/** How many blocks tell the typical step, and how many of them the level. */
const BEFORE = 15;
const LEVEL = 5;

/** Blocks at the end of the history that stand off what came before, as long as they may return. */
export interface Excursions {
  count: number;
}

function medianOf(values: number[]): number {
  return sortFew(values)[values.length >> 1] ?? NaN;
}

/** The newest readings, at most so many, of the blocks before index `end`: newest first. */
function readingsBefore(
  blocks: readonly Block[],
  end: number,
  { column, most }: { column: number; most: number },
): number[] {
  const values: number[] = [];
  for (let i = end - 1; i >= Math.max(end - BEFORE, 0) && values.length < most; i--) {
    const value = blocks[i]!.means[column]!;
    if (!Number.isNaN(value)) values.push(value);
  }
  return values;
}

/** Whether the newest block stands off those before index `end`. */
function standsOff(blocks: readonly Block[], end: number, column: number): boolean {
  const value = blocks.at(-1)!.means[column]!;
  if (Number.isNaN(value) || isNear(blocks, end, column)) return false;
  const newest = readingsBefore(blocks, end, { column, most: LEVEL });
  if (newest.length < LEVEL) return false;
  const level = medianOf(newest);
  const height = Math.abs(value - level);
  if (height <= LEAST_SHARE * Math.abs(level)) return false;
  const values = readingsBefore(blocks, end, { column, most: BEFORE });
  const steps: number[] = [];
  for (let i = 1; i < values.length; i++) steps.push(Math.abs(values[i]! - values[i - 1]!));
  return height > LEAST_STEPS * medianOf(steps);
}

/** Whether the newest block stands off none of those that tell the level, as nearly always. */
function isNear(blocks: readonly Block[], end: number, column: number): boolean {
  const value = blocks.at(-1)!.means[column]!;
  const first = Math.max(end - LEVEL, 0);
  for (let i = first; i < end; i++) {
    const other = blocks[i]!.means[column]!;
    if (!(Math.abs(value - other) <= LEAST_SHARE * Math.abs(other))) return false;
  }
  return first < end;
}

function levelBefore(blocks: readonly Block[], end: number, column: number): number {
  return Math.abs(medianOf(readingsBefore(blocks, end, { column, most: LEVEL })));
}

/**
 * What a contact would have done to a column from index `end` on: opened and closed at once. The
 * first and the newest two blocks may be half of one and half of the other.
 */
interface Contact {
  readonly opened: boolean;
  readonly closed: boolean;
}

function contactOf(blocks: readonly Block[], end: number, column: number): Contact {
  const level = levelBefore(blocks, end, column);
  const shares = blocks.slice(end).map(({ means }) => Math.abs(means[column]!) / level);
  const isNothing = (share: number): boolean => level > 0 && share <= NOTHING;
  const opened = shares.slice(1, -2).every(isNothing);
  const wasOpen = shares.slice(0, -2).some(isNothing) && !isNothing(shares.at(-2) ?? 0);
  return { opened, closed: opened && wasOpen && shares.at(-1)! > AT_ONCE };
}

/**
 * Looks at the newest block. True while an excursion may be under way: no decision should rest on
 * it. When the readings have come back, the blocks in between are blanked. Below `still_V` nothing
 * turns.
 */
export function watchExcursions(
  state: Excursions,
  history: History,
  still_V: number,
): boolean {
  const { blocks } = history;
  const last = blocks.length - 1;
  const end = Math.max(last - state.count, 0);
  if (standsOff(blocks, end, VOLTAGE) || standsOff(blocks, end, CURRENT)) {
    const turned = levelBefore(blocks, end, VOLTAGE) > still_V;
    const columns = turned ? [VOLTAGE, CURRENT] : [];
    const contacts = columns.map((column) => contactOf(blocks, end, column));
    const longest_s = contacts.some(({ opened }) => opened) ? LONGEST_NOTHING_S : LONGEST_S;
    if (!contacts.some(({ closed }) => closed)) {
      state.count++;
      if (blocks[last]!.end_s - blocks[end]!.start_s <= longest_s) return true;
      state.count = 0;
      return false;
    }
  }
  for (let i = end; i < last; i++) {
    const { means } = blocks[i]!;
    means[VOLTAGE] = means[CURRENT] = means[POWER] = NaN;
  }
  if (state.count > 0) reckonFrom(history, end);
  state.count = 0;
  return false;
}

/** Since when the readings have stood off; Infinity when they do not. */
export function awaySince_s({ count }: Excursions, { blocks }: History): number {
  return count === 0 ? Infinity : blocks.at(-count)!.start_s;
}
