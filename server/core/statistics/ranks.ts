/** Ranks from 1; equal values share the mean of theirs. */
export function ranksOf(values: readonly number[]): number[] {
  const order = values.map((_, i) => i).sort((i, j) => values[i]! - values[j]!);
  const ranks = new Array<number>(values.length).fill(0);
  for (let start = 0; start < order.length; ) {
    let end = start + 1;
    while (end < order.length && values[order[end]!] === values[order[start]!]) end++;
    for (let i = start; i < end; i++) ranks[order[i]!] = (start + 1 + end) / 2;
    start = end;
  }
  return ranks;
}
