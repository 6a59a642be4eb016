/** What the scorer asks of a method: what it finds in one recording. */
import type { Interval, Recording } from './recording.ts';

/** One plateau as a method reported it. */
export interface FoundPlateau extends Interval {
  /** Stream time at which it first said settled. */
  readonly declared_s: number;
  /** Stream time at which it said that it was over; later than `end_s` where that was trimmed. */
  readonly closed_s: number;
  /** Mean voltage with its Type A evaluation. */
  readonly voltage_V: number;
  readonly standardUncertainty_V: number;
  readonly degreesOfFreedom: number;
}

export interface Findings {
  readonly plateaus: readonly FoundPlateau[];
  /** What it had called settled and took back itself: no result, but a broken promise. */
  readonly takenBack: readonly FoundPlateau[];
  /** Moments at which the method said that this will not settle by waiting. */
  readonly hopeless_s: readonly number[];
}

export interface Method {
  readonly name: string;
  find(recording: Recording): Findings;
}
