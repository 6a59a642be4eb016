/**
 * How long the rest of a plan will take, and how much of it fits before the bell. A forecast in
 * whole rounds: half a round compares some levels and not the others.
 */
import type { Plan, Run } from './plan.ts';

/**
 * From one logged trial to the next while nothing has been timed: the rotor runs down (15 s), the
 * blades are set (40 s), it spins up and settles (20 s), it is recorded (15 s). Common practice, no
 * source; the first runs of a lesson replace it.
 */
export const DEFAULT_RUN_S = 90;
/** So many times are needed before their median is believed. */
export const LEAST_TIMES = 3;

const DAY_S = 86_400;

/**
 * The usual time from one logged trial to the next, s: the median, which a break or a question in
 * between does not move. Null until seen often enough.
 */
export function usualRun_s(times_s: readonly number[]): number | null {
  if (times_s.length < LEAST_TIMES) return null;
  const sorted = [...times_s].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  const upper = sorted[half] ?? 0;
  return sorted.length % 2 === 1 ? upper : ((sorted[half - 1] ?? 0) + upper) / 2;
}

export interface Duration {
  readonly perRun_s: number;
  readonly all_s: number;
  /** Where the time per run comes from. */
  readonly basis: 'measured' | 'default';
}

/** The time that so many runs will take. `usual_s`: see usualRun_s. */
export function durationOf(runCount: number, usual_s: number | null): Duration {
  const perRun_s = usual_s ?? DEFAULT_RUN_S;
  return { perRun_s, all_s: runCount * perRun_s, basis: usual_s === null ? 'default' : 'measured' };
}

/** From `now_s` (s since local midnight) to a time of day ("14:45"), s; negative once it is past. */
export function timeUntil_s(finishBy: string, now_s: number): number {
  const [hours = 0, minutes = 0] = finishBy.split(':').map(Number);
  const ahead = (hours * 60 + minutes) * 60 - now_s;
  // The nearest such time: at 23:50 a bell at 0:15 is not yesterday's.
  return ahead - DAY_S * Math.round(ahead / DAY_S);
}

export interface Fit {
  /** Rounds that will be whole by the bell, those already done among them. */
  readonly rounds: number;
  /** Time left when all is done, s; negative: so much is wanting. */
  readonly spare_s: number;
}

/**
 * How many rounds will be whole by the bell; null without one.
 * @param left the runs still to do, in their order
 * @param now_s local time of day, s since midnight
 */
export function roundsThatFit(
  plan: Pick<Plan, 'rounds' | 'finishBy'>,
  left: readonly Run[],
  { usual_s, now_s }: { readonly usual_s: number | null; readonly now_s: number },
): Fit | null {
  if (plan.finishBy === null) return null;
  const time_s = timeUntil_s(plan.finishBy, now_s);
  const { perRun_s, all_s } = durationOf(left.length, usual_s);
  const fitting = Math.max(Math.floor(time_s / perRun_s), 0);
  const unfinished = left.slice(fitting).filter((run) => !run.isReference && !run.isAgain);
  const rounds = new Set(unfinished.map(({ round }) => round)).size;
  return { rounds: plan.rounds - rounds, spare_s: time_s - all_s };
}
