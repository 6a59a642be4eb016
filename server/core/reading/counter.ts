/** Counters that only grow and wrap: sequence numbers and pulses. */

/** They wrap at one of these; plain lines don't say which. */
const SPANS: readonly number[] = [2 ** 16, 2 ** 32];
/** Across a wrap, a step longer than this is none: the counter began anew. */
export const LONGEST_STEP = 2 ** 15;

/** How far a counter went from one value to the next; null when it began anew. */
export function stepsForward(previous: number, next: number): number | null {
  if (next >= previous) return next - previous;
  for (const span of SPANS) {
    const steps = next + span - previous;
    if (previous < span && steps <= LONGEST_STEP) return steps;
  }
  return null;
}

/** A number that a counter can show. */
export function isCount(value: number): boolean {
  return Number.isInteger(value) && value >= 0;
}
