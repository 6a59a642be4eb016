/** When to try again: full jitter, so that a room full of pages does not come back all at once. */

export const LONGEST_WAIT_MS = 15_000;
const FIRST_WAIT_MS = 500;

/**
 * The wait before a try, ms: anything between 0 and a limit that doubles with each failure.
 * @param failures tries that failed since the last success
 * @param chance from 0 to 1
 */
export function waitBeforeTry_ms(failures: number, chance: number): number {
  return chance * Math.min(FIRST_WAIT_MS * 2 ** failures, LONGEST_WAIT_MS);
}
