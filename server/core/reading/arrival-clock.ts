/**
 * Time for boards that don't state any: a sample's time is its line's arrival. Lines that arrive in
 * one chunk share one arrival; there the first keeps it and the others follow at the learnt period.
 * If that runs past the next arrival, times go on at half the period until arrival has caught up,
 * so they always increase and never run away.
 *
 * Such times are as good as the cable and the operating system make them: some milliseconds, in
 * bursts tens of them. A board with a `time_ms` column does better.
 */
import { learnInterval, type PeriodLearner } from './period.ts';

/** Between lines of a chunk while nothing is learnt yet. */
const UNKNOWN_PERIOD_S = 0.001;

export interface ArrivalClock {
  /** Arrival of the newest chunk; null before the first of a connection. */
  chunkAt_s: number | null;
  linesInChunk: number;
  /** The chunk's first line had to be placed after its arrival. */
  ahead: boolean;
}

export function createArrivalClock(): ArrivalClock {
  return { chunkAt_s: null, linesInChunk: 0, ahead: false };
}

/** The stream time of a line that arrived at `at_s`, always later than `after_s`. */
export function placeArrival(
  clock: ArrivalClock,
  learner: PeriodLearner,
  at_s: number,
  after_s: number,
): number {
  const period_s = learner.period_s ?? UNKNOWN_PERIOD_S;
  if (at_s === clock.chunkAt_s) {
    clock.linesInChunk += 1;
    return after_s + (clock.ahead ? period_s / 2 : period_s);
  }
  if (clock.chunkAt_s !== null) {
    learnInterval(learner, at_s - clock.chunkAt_s, clock.linesInChunk);
  }
  clock.chunkAt_s = at_s;
  clock.linesInChunk = 1;
  clock.ahead = at_s <= after_s;
  return clock.ahead ? after_s + period_s / 2 : at_s;
}
