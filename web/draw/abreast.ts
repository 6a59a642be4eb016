/** Dashes at one place that would cover one another stand abreast, each the narrower for it. */

export interface Dash {
  readonly left: number;
  readonly width: number;
}

/** What a dash would take if it stood alone, and what is kept free around each; pixels. */
export interface DashRoom {
  readonly width: number;
  readonly height: number;
  readonly gap: number;
}

/** More columns than this would be too narrow to be told apart; further dashes lie on them. */
const MOST_COLUMNS = 5;

interface Placed {
  readonly index: number;
  readonly x: number;
  readonly y: number;
}

/**
 * Left end and width of each dash. The newest stands leftmost, where the cord of threads ends.
 * @param middles where each would stand alone, pixels; the newest last
 */
export function abreast(
  middles: readonly { readonly x: number; readonly y: number }[],
  room: DashRoom,
): readonly Dash[] {
  const dashes: Dash[] = middles.map(({ x }) => ({ left: x - room.width / 2, width: room.width }));
  const inOrder = middles
    .map(({ x, y }, index): Placed => ({ index, x, y }))
    .sort((a, b) => a.x - b.x || a.y - b.y);
  for (const cluster of clustersOf(inOrder, room.height + room.gap)) {
    const columns = columnsOf(cluster, room.height + room.gap);
    const count = Math.max(...columns) + 1;
    const width = (room.width - (count - 1) * room.gap) / count;
    cluster.forEach(({ index, x }, i) => {
      const left = x - room.width / 2 + (columns[i] ?? 0) * (width + room.gap);
      dashes[index] = { left, width };
    });
  }
  return dashes;
}

/** Those of one place whose heights follow one another without a gap. */
function clustersOf(inOrder: readonly Placed[], apart: number): readonly Placed[][] {
  const clusters: Placed[][] = [];
  for (const placed of inOrder) {
    const cluster = clusters.at(-1);
    const before = cluster?.at(-1);
    const isClose = before?.x === placed.x && placed.y - before.y < apart;
    if (isClose) cluster?.push(placed);
    else clusters.push([placed]);
  }
  return clusters;
}

/** The first column that is free at a dash's height; the newest has the first choice. */
function columnsOf(cluster: readonly Placed[], apart: number): readonly number[] {
  const taken: number[][] = [];
  const columns = new Map<Placed, number>();
  for (const placed of [...cluster].sort((a, b) => b.index - a.index)) {
    const isFree = (heights: number[]): boolean =>
      heights.every((y) => Math.abs(y - placed.y) >= apart);
    const free = taken.findIndex(isFree);
    const column = free >= 0 ? free : taken.length % MOST_COLUMNS;
    (taken[column] ??= []).push(placed.y);
    columns.set(placed, column);
  }
  return cluster.map((placed) => columns.get(placed) ?? 0);
}
