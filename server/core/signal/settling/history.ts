import { COLUMNS, POWER, WIND, type Block } from './block.ts';

/** The longest window that is looked at. */
export const HISTORY_S = 60;
/** It is trimmed in lumps, so that the cost of shifting it is spread thin. */
const LUMP_S = 30;
/** A wind that was told this many blocks ago is not known any more. */
const WIND_BLOCKS = 25;

/**
 * One value a block, a missing reading held from before, and running sums of them: element i is of
 * the i values that come first. What is asked of any window is then a difference of two elements.
 */
export interface Course {
  readonly values: number[];
  readonly sums: number[];
  /** Sums of index times value. */
  readonly moments: number[];
  /** Sums of the squared difference from the value before. */
  readonly hops: number[];
  /** How many were no missing readings. */
  readonly present: number[];
}

/** The newest blocks, oldest first; what lies further back than the longest window is forgotten. */
export interface History {
  readonly blocks: Block[];
  /** In the order of the columns; that of power is empty, for nothing is judged by it. */
  readonly courses: readonly Course[];
}

const JUDGED = COLUMNS.map((_, column) => column).filter((column) => column !== POWER);

export function createHistory(): History {
  return { blocks: [], courses: COLUMNS.map(createCourse) };
}

function createCourse(): Course {
  return { values: [], sums: [0], moments: [0], hops: [0], present: [0] };
}

/** Keeps the first `count` values. */
function cut({ values, sums, moments, hops, present }: Course, count: number): void {
  values.length = count;
  sums.length = moments.length = hops.length = present.length = count + 1;
}

/** Puts value `i` after those before it; a missing one (NaN) is held, or is `first` at the start. */
function put(course: Course, i: number, value: number, first: number): void {
  const { values, sums, moments, hops, present } = course;
  const missing = Number.isNaN(value);
  const before = i > 0 ? values[i - 1]! : first;
  const held = missing ? before : value;
  const hop = i > 0 ? held - before : 0;
  values[i] = held;
  sums[i + 1] = sums[i]! + held;
  moments[i + 1] = moments[i]! + i * held;
  hops[i + 1] = hops[i]! + hop * hop;
  present[i + 1] = present[i]! + (missing ? 0 : 1);
}

export function remember(history: History, block: Block): void {
  const { blocks } = history;
  blocks.push(block);
  const oldest_s = block.end_s - HISTORY_S;
  if (blocks[0]!.end_s < oldest_s - LUMP_S) {
    blocks.splice(0, blocks.findIndex((kept) => kept.end_s >= oldest_s));
    reckonFrom(history, 0);
  } else {
    reckonFrom(history, blocks.length - 1);
  }
}

/** Puts the running sums right after blocks from this index on were added or changed. */
export function reckonFrom({ blocks, courses }: History, from: number): void {
  for (const column of JUDGED) {
    const course = courses[column]!;
    for (let i = from; i < blocks.length; i++) put(course, i, blocks[i]!.means[column]!, 0);
    if (course.values.length > blocks.length) cut(course, blocks.length);
  }
}

export function forget(history: History): void {
  history.blocks.length = 0;
  reckonFrom(history, 0);
}

/** Index of the first block that began at `from_s` or later. */
export function indexSince({ blocks }: History, from_s: number): number {
  let low = 0;
  let high = blocks.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (blocks[middle]!.start_s >= from_s - 1e-4) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** One column of some blocks without the missing ones. */
export function columnOf(blocks: readonly Block[], column: number, from = 0): number[] {
  const values: number[] = [];
  for (let i = from; i < blocks.length; i++) {
    const value = blocks[i]!.means[column]!;
    if (!Number.isNaN(value)) values.push(value);
  }
  return values;
}

/**
 * Whether enough of a column is there from this index on: half of its readings; of the wind, which
 * may be told once in some seconds only, one within the newest five (of blocks of a fifth).
 */
function isKnown({ blocks, courses }: History, column: number, from: number): boolean {
  const { present } = courses[column]!;
  const count = blocks.length - from;
  const least = column === WIND ? 1 : Math.max(count / 2, 1);
  const since = column === WIND ? Math.max(blocks.length - WIND_BLOCKS, from) : from;
  return present[blocks.length]! - present[since]! >= least;
}

/**
 * One column from this index on as a stretch of a course; null when too few of its readings are
 * there. Missing ones at its start are held from after.
 */
export function courseSince(
  history: History,
  column: number,
  from: number,
): { course: Course; from: number } | null {
  if (!isKnown(history, column, from)) return null;
  const { blocks } = history;
  const course = history.courses[column]!;
  if (!Number.isNaN(blocks[from]!.means[column]!)) return { course, from };
  return { course: courseOf(blocks.slice(from), column), from: 0 };
}

function courseOf(blocks: readonly Block[], column: number): Course {
  const course = createCourse();
  const first = columnOf(blocks, column)[0] ?? NaN;
  blocks.forEach((block, i) => put(course, i, block.means[column]!, first));
  return course;
}

/**
 * One column with one value a block, a missing one held from before (at the start, from after);
 * empty when fewer than half of them are there.
 */
export function alignedColumn(blocks: readonly Block[], column: number): readonly number[] {
  const { values, present } = courseOf(blocks, column);
  const count = present[blocks.length]!;
  return count === 0 || 2 * count < blocks.length ? [] : values;
}
