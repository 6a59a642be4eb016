/** Names along an axis, moved apart as little as possible so that none lies over another. */

interface Block {
  /** Sum of the places that its names would like best, each less what stands before it. */
  wish: number;
  count: number;
  width: number;
}

/**
 * Middles for names of the given widths: each as near to its own place as the others allow (least
 * squares), in order and within the ends as far as there is room.
 * @param places wanted middles, ascending
 */
export function spreadLabels(
  places: readonly number[],
  widths: readonly number[],
  ends: { readonly left: number; readonly right: number },
): readonly number[] {
  const blocks: Block[] = [];
  places.forEach((place, i) => {
    const width = widths[i] ?? 0;
    blocks.push({ wish: place - width / 2, count: 1, width });
    mergeBack(blocks);
  });
  const lefts = blocks.map(leftOf);
  // What sticks out at an end pushes its neighbours.
  for (let i = 0, free = ends.left; i < blocks.length; i++) {
    lefts[i] = Math.max(lefts[i] ?? 0, free);
    free = (lefts[i] ?? 0) + (blocks[i]?.width ?? 0);
  }
  for (let i = blocks.length - 1, free = ends.right; i >= 0; i--) {
    lefts[i] = Math.min(lefts[i] ?? 0, free - (blocks[i]?.width ?? 0));
    free = lefts[i] ?? 0;
  }
  return middlesOf(blocks, lefts, widths);
}

function leftOf({ wish, count }: Block): number {
  return wish / count;
}

/** Names that would overlap become one block, which stands where its names like it best together. */
function mergeBack(blocks: Block[]): void {
  for (;;) {
    const [before, last] = [blocks.at(-2), blocks.at(-1)];
    if (before === undefined || last === undefined) return;
    if (leftOf(before) + before.width <= leftOf(last)) return;
    blocks.pop();
    before.wish += last.wish - last.count * before.width;
    before.count += last.count;
    before.width += last.width;
  }
}

function middlesOf(
  blocks: readonly Block[],
  lefts: readonly number[],
  widths: readonly number[],
): number[] {
  const middles: number[] = [];
  blocks.forEach(({ count }, i) => {
    let left = lefts[i] ?? 0;
    for (let n = 0; n < count; n++) {
      const width = widths[middles.length] ?? 0;
      middles.push(left + width / 2);
      left += width;
    }
  });
  return middles;
}
