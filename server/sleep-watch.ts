/**
 * Notices that the computer slept. The monotonic clock of some systems stands still meanwhile, so
 * that readings from before and after seem to follow on each other; the wall clock shows the gap.
 * A wall clock that somebody sets forward looks the same: that breaks off a plateau, no worse.
 */

/** The wall clock is set right by less than this in small steps all the time. */
const LEAST_SLEEP_S = 2;

export interface Clocks {
  /** Seconds of a clock that never goes back. */
  monotonic_s(): number;
  /** Seconds of the wall clock. */
  wall_s(): number;
}

/**
 * A function to be asked before each input: seconds slept since it was last asked, which the
 * monotonic clock does not know of; 0 nearly always.
 */
export function watchSleep({ monotonic_s, wall_s }: Clocks): () => number {
  let lastAhead_s = wall_s() - monotonic_s();
  return () => {
    const ahead_s = wall_s() - monotonic_s();
    const slept_s = ahead_s - lastAhead_s;
    lastAhead_s = ahead_s;
    return slept_s >= LEAST_SLEEP_S ? slept_s : 0;
  };
}
