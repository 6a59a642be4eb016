/** What the scorer asks of a method: the plateaus that it finds in one recording, and its cost. */
import type { Interval, Recording } from './recording.ts';

/** One plateau as a method reported it. */
export interface FoundPlateau extends Interval {
  /** Stream time at which it first said settled. */
  readonly declared_s: number;
  /** Mean voltage with its Type A evaluation. */
  readonly voltage_V: number;
  readonly standardUncertainty_V: number;
  readonly degreesOfFreedom: number;
}

export interface Method {
  readonly name: string;
  find(recording: Recording): FoundPlateau[];
}
