/** Time as a run feels it: the world's, or that of a rig which is only played. */
import { watchSleep } from './sleep-watch.ts';
import type { RecordingClock } from './sources/source.ts';

export interface RunTime {
  readonly clock: RecordingClock;
  /** Calls back in this rhythm, in seconds, until what is returned is called. */
  every(period_s: number, call: () => void): () => void;
  /** Seconds that the computer slept since this was last asked, of which the clock knows nothing. */
  sleptFor_s(): number;
}

/** Goes on by itself, from now on. */
export function worldTime(): RunTime {
  const zero_ms = performance.now();
  const clock = () => wholeMicroseconds((performance.now() - zero_ms) / 1000);
  return {
    clock,
    every: (period_s, call) => {
      const timer = setInterval(call, period_s * 1000);
      return () => clearInterval(timer);
    },
    sleptFor_s: watchSleep({ monotonic_s: clock, wall_s: () => Date.now() / 1000 }),
  };
}

/** Stands still until somebody moves it on. */
export interface PlayedTime extends RunTime {
  /** Moves on to `to_s`; whoever wants to be called on the way is, at his own time. */
  moveTo(to_s: number): void;
}

interface Rhythm {
  readonly period_s: number;
  readonly call: () => void;
  due_s: number;
}

export function playedTime(): PlayedTime {
  const rhythms = new Set<Rhythm>();
  let now_s = 0;
  return {
    clock: () => now_s,
    every: (period_s, call) => {
      const rhythm = { period_s, call, due_s: now_s + period_s };
      rhythms.add(rhythm);
      return () => void rhythms.delete(rhythm);
    },
    sleptFor_s: () => 0,
    moveTo: (to_s) => {
      for (let next = firstDue(rhythms, to_s); next !== null; next = firstDue(rhythms, to_s)) {
        now_s = wholeMicroseconds(next.due_s);
        next.due_s += next.period_s;
        next.call();
      }
      now_s = wholeMicroseconds(to_s);
    },
  };
}

function firstDue(rhythms: ReadonlySet<Rhythm>, to_s: number): Rhythm | null {
  const due = [...rhythms].filter(({ due_s }) => due_s <= to_s);
  return due.reduce<Rhythm | null>(
    (first, one) => (first === null || one.due_s < first.due_s ? one : first),
    null,
  );
}

function wholeMicroseconds(time_s: number): number {
  return Math.round(time_s * 1e6) / 1e6;
}
