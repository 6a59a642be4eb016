import type { Block } from './block.ts';

/** The longest window that is looked at. */
export const HISTORY_S = 60;

/** The newest blocks, oldest first; what lies further back than the longest window is forgotten. */
export interface History {
  readonly blocks: Block[];
}

export function createHistory(): History {
  return { blocks: [] };
}

export function remember(history: History, block: Block): void {
  history.blocks.push(block);
  // Trimmed in lumps, so that the cost of shifting the array is spread thin.
  const oldest = block.end_s - HISTORY_S;
  if (history.blocks[0]!.end_s < oldest - 10) {
    history.blocks.splice(0, history.blocks.findIndex((kept) => kept.end_s >= oldest));
  }
}

export function forget(history: History): void {
  history.blocks.length = 0;
}

/** Blocks that began at `from_s` or later. */
export function since(history: History, from_s: number): readonly Block[] {
  const { blocks } = history;
  let at = blocks.length;
  while (at > 0 && blocks[at - 1]!.start_s >= from_s - 1e-4) at--;
  return blocks.slice(at);
}

/** One column of some blocks without the missing ones. */
export function columnOf(blocks: readonly Block[], column: number): number[] {
  const values: number[] = [];
  for (const block of blocks) {
    const value = block.means[column]!;
    if (!Number.isNaN(value)) values.push(value);
  }
  return values;
}

/**
 * One column with one value a block, a missing one held from before (at the start, from after);
 * empty when fewer than half of them are there.
 */
export function alignedColumn(blocks: readonly Block[], column: number): number[] {
  const present = columnOf(blocks, column);
  if (present.length === 0 || 2 * present.length < blocks.length) return [];
  let held = present[0]!;
  return blocks.map((block) => {
    const value = block.means[column]!;
    if (!Number.isNaN(value)) held = value;
    return held;
  });
}
