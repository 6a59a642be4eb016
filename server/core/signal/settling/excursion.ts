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

/** The median of the newest readings before index `end`; NaN where fewer than `least` are there. */
function levelBefore(
  blocks: readonly Block[],
  end: number,
  { column, least }: { column: number; least: number },
): number {
  const values: number[] = [];
  for (let i = end - 1; i >= Math.max(end - BEFORE, 0) && values.length < LEVEL; i--) {
    const value = blocks[i]!.means[column]!;
    if (!Number.isNaN(value)) values.push(value);
  }
  return values.length < least ? NaN : sortFew(values)[values.length >> 1]!;
}

/**
 * Whether a height is more than so many times the median of the steps from reading to reading
 * before index `end`: then it is so for more than half of them.
 */
function towers(blocks: readonly Block[], end: number, column: number, height: number): boolean {
  let before = NaN;
  let steps = 0;
  let smaller = 0;
  for (let i = Math.max(end - BEFORE, 0); i < end; i++) {
    const value = blocks[i]!.means[column]!;
    if (Number.isNaN(value)) continue;
    if (!Number.isNaN(before)) {
      steps += 1;
      if (LEAST_STEPS * Math.abs(value - before) < height) smaller += 1;
    }
    before = value;
  }
  return smaller > steps >> 1;
}

/** Whether the newest block stands off those before index `end`. */
function standsOff(blocks: readonly Block[], end: number, column: number): boolean {
  const value = blocks[blocks.length - 1]!.means[column]!;
  if (Number.isNaN(value) || isNear(blocks, end, column)) return false;
  const level = levelBefore(blocks, end, { column, least: LEVEL });
  const height = Math.abs(value - level);
  return height > LEAST_SHARE * Math.abs(level) && towers(blocks, end, column, height);
}

/** Whether the newest block stands off none of those that tell the level, as nearly always. */
function isNear(blocks: readonly Block[], end: number, column: number): boolean {
  const value = blocks[blocks.length - 1]!.means[column]!;
  const first = Math.max(end - LEVEL, 0);
  for (let i = first; i < end; i++) {
    const other = blocks[i]!.means[column]!;
    if (!(Math.abs(value - other) <= LEAST_SHARE * Math.abs(other))) return false;
  }
  return first < end;
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
  const level = Math.abs(levelBefore(blocks, end, { column, least: 1 }));
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
    const turned = Math.abs(levelBefore(blocks, end, { column: VOLTAGE, least: 1 })) > still_V;
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
