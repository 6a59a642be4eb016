/** A level measured beside its prediction, and what may have been otherwise. */
import type { PredictedPoint } from '../predicted-point.ts';
import type { Suspect } from './suspects.ts';

export interface ComparedLevel {
  readonly angle_deg: number;
  readonly measured_W: number;
  readonly expected_W: number;
  /** The middle 95 % of the draws. */
  readonly low_W: number;
  readonly high_W: number;
  /** Outside the band by more than twice the measurement's standard uncertainty. */
  readonly isFar: boolean;
  /** All that the model expects there. */
  readonly point: PredictedPoint;
}

export interface Explanation {
  readonly suspect: Suspect;
  /** What it would have to be: a factor, or degrees for the blade angle. */
  readonly change: number;
  /** In standard uncertainties of what was said. */
  readonly stretch: number;
  /** What is left between measured and expected: root mean square, in standard uncertainties. */
  readonly left: number;
  readonly statement: string;
}
