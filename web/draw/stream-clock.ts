/**
 * Where "now" is in stream time, between messages: the newest sample when it came, plus what has
 * passed since. Messages come with jitter; the earliest of them says most about the offset.
 */
export interface StreamClock {
  /** Stream time minus wall time, s; null before the first sample. */
  offset_s: number | null;
  notedAt_s: number;
}

/** How fast an offset that no message confirms is let go, s/s: clocks drift, replays slow down. */
const LEAK = 0.02;
/** A jump beyond this is another stream time, or a replay faster or slower than life. */
const JUMP_S = 1;

export function createStreamClock(): StreamClock {
  return { offset_s: null, notedAt_s: 0 };
}

/** Notes that the newest sample is at `stream_s` now, at `wall_s` on a monotonic clock. */
export function noteArrival(clock: StreamClock, stream_s: number, wall_s: number): void {
  const seen_s = stream_s - wall_s;
  const leaked_s = (clock.offset_s ?? seen_s) - LEAK * (wall_s - clock.notedAt_s);
  const isJump = Math.abs(seen_s - leaked_s) > JUMP_S;
  clock.offset_s = isJump ? seen_s : Math.max(leaked_s, seen_s);
  clock.notedAt_s = wall_s;
}

/** Stream time now; 0 before the first sample. */
export function streamNow_s(clock: StreamClock, wall_s: number): number {
  return clock.offset_s === null ? 0 : wall_s + clock.offset_s;
}
