/** Sorts in place, by insertion: so few are sorted soonest that way. */
export function sortFew(values: number[]): number[] {
  for (let i = 1; i < values.length; i++) {
    const value = values[i]!;
    let at = i;
    for (; at > 0 && values[at - 1]! > value; at--) values[at] = values[at - 1]!;
    values[at] = value;
  }
  return values;
}
