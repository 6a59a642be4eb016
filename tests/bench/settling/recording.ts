/** What a generator hands to the benchmark: a session's samples and what is true of them. */
import type { Sample } from '#core/signal/sample.ts';

export interface Interval {
  readonly start_s: number;
  readonly end_s: number;
}

export interface TruePlateau extends Interval {
  /** Mean of the noise-free voltage over the interval. */
  readonly voltage_V: number;
  /** Shorter than six seconds: finding it and not finding it are both right. */
  readonly eitherWay: boolean;
}

export interface Recording {
  readonly kind: string;
  readonly rate_Hz: number;
  readonly seed: number;
  readonly duration_s: number;
  /** The rotor's time constant, at the nominal working point. */
  readonly lag_s: number;
  readonly samples: readonly Sample[];
  readonly plateaus: readonly TruePlateau[];
  /** Rotor still in a steady wind that the board measures: a plateau at zero. */
  readonly stillInWind: readonly Interval[];
  /** Rotor still, with wind or without: what is found here is scored apart. */
  readonly still: readonly Interval[];
  /** Turning, but by its nature never settling. */
  readonly restless: readonly Interval[];
}

/** A way of making recordings of named kinds. */
export interface RecordingMaker {
  readonly kinds: readonly string[];
  record(kind: string, rate_Hz: number, seed: number): Recording;
}

export function length_s(interval: Interval): number {
  return interval.end_s - interval.start_s;
}

/** Seconds that both intervals cover. */
export function overlap_s(a: Interval, b: Interval): number {
  return Math.max(0, Math.min(a.end_s, b.end_s) - Math.max(a.start_s, b.start_s));
}
