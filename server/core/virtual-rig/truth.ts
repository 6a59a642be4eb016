/** What the demonstration rig truly did, for whoever wants to judge the tool by it. */
import type { Trial } from '../experiment/trial.ts';
import { expandedUncertainty } from '../metrology/format.ts';
import { DEMO_PARAMETERS, type DemoRig } from './demo.ts';
import { trueCourse, type TrueCourse } from './rig.ts';

export interface Truth {
  readonly course: TrueCourse;
  readonly history: DemoRig['history'];
}

/** The noise-free course of everything that has been done to the rig so far. */
export function truthOf({ rig, history }: DemoRig): Truth {
  return { course: trueCourse(DEMO_PARAMETERS, history, rig.readingCount / rig.rate_Hz), history };
}

/** Mean power over an interval, W, in the rig's own time. */
export function truePower_W(
  { course }: Truth,
  { start_s, end_s }: { readonly start_s: number; readonly end_s: number },
): number {
  const from = Math.round(start_s / course.step_s);
  const to = Math.round(end_s / course.step_s);
  let sum = 0;
  for (let i = from; i < to; i++) sum += course.voltage_V[i]! * course.current_A[i]!;
  return sum / (to - from);
}

/** The angle that the blades stood at, degrees from the rotor plane; null before any was set. */
export function trueAngle_deg({ history }: Truth, time_s: number): number | null {
  const isSet = ({ at_s, event }: DemoRig['history'][number]): boolean =>
    event.kind === 'angle' && at_s <= time_s;
  const last = history.findLast(isSet)?.event;
  return last?.kind === 'angle' ? last.angle_deg : null;
}

/** A measured value this near to the true one is right, whatever its interval. */
const NEAR = 0.01;

/**
 * Whether a trial carries the angle that the rig stood at and the power that it truly gave, within
 * the 95 % interval or 1 %. True is the mean that the rig comes to in the long run at this setting,
 * fan warm-up included, and not what chance gusts made of it meanwhile: that is what an interval
 * is about. One in twenty honest intervals misses it.
 */
export function isRight(truth: Truth, trial: Trial): boolean {
  const { power_W, factors, start_s } = trial;
  if (power_W === null || factors['angle_deg'] !== trueAngle_deg(truth, start_s)) return false;
  const true_W = truePower_W(truth, trial);
  const allowed_W = Math.max(expandedUncertainty(power_W) ?? 0, NEAR * true_W);
  return Math.abs(power_W.value - true_W) <= allowed_W;
}
