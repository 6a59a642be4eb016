/** Where a short text can stand so that it touches nothing that is drawn. */

export interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/**
 * The top of a box that is moved up until it lies over none of the others.
 * @param wanted where it would stand best
 */
export function clearOf(wanted: Box, others: readonly Box[]): number {
  const height = wanted.bottom - wanted.top;
  const inWay = others.filter(({ left, right }) => left < wanted.right && right > wanted.left);
  let { top } = wanted;
  // From the lowest up: what was passed is not met again.
  for (const other of [...inWay].sort((a, b) => b.bottom - a.bottom)) {
    if (other.top < top + height && other.bottom > top) top = other.top - height;
  }
  return top;
}
