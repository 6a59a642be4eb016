import type { Channel, Quantity } from './sample.ts';
import type { WindGusts } from './wind-gusts.ts';

/** A mean with its Type A evaluation (JCGM 100:2008, 4.2), for autocorrelated samples. */
export interface Estimate {
  readonly mean: number;
  /** Standard uncertainty of the mean, same unit as the mean. */
  readonly standardUncertainty: number;
  /** Effective degrees of freedom that the standard uncertainty was estimated with. */
  readonly degreesOfFreedom: number;
  /** How many independent samples would have given this uncertainty. */
  readonly effectiveSampleSize: number;
}

/**
 * Why a plateau ended: a reading changed; the link was cut, the board restarted or the samples
 * stopped for too long; the stream came to its end.
 */
export type EndReason = 'changed' | 'interrupted' | 'end';

/** A stretch over which every channel was steady. */
export interface Plateau {
  /** The interval that the means are taken over, stream time. */
  readonly start_s: number;
  readonly end_s: number;
  /** Stream time at which the detector first said settled. */
  readonly declared_s: number;
  /** Samples inside the interval. */
  readonly sampleCount: number;
  /** True when the rotor stood still while the wind blew: a result of zero, not a missing one. */
  readonly rotorStill: boolean;
  /** One estimate for each quantity that had readings. */
  readonly estimates: Partial<Readonly<Record<Quantity, Estimate>>>;
  /** Missing where the wind was not read. */
  readonly windGusts?: WindGusts;
  /**
   * Set on closing when what was called settled turns out, looking back, not to have been: the
   * reading crept all the while, or stayed for a moment only. No result; kept as history.
   */
  readonly withdrawn?: true;
}

/** What one channel is doing now. */
export interface ChannelMotion {
  readonly channel: Channel;
  /** unsteady: neither still nor going one way, for instance a limit cycle or gusts. */
  readonly motion: 'still' | 'rising' | 'falling' | 'unsteady';
  /** Mean over the newest part of the window, the channel's unit. */
  readonly level: number;
  /** Change per second now, the channel's unit per second. */
  readonly slope_per_s: number;
}

/** One slice of the detector's window, as the page draws it. */
export interface Thread {
  readonly power_W: number;
  /** Within the tolerance plus three standard errors of a slice mean of the newest quarter. */
  readonly joined: boolean;
}

/** What the detector decides about five times a second. */
export interface Verdict {
  readonly time_s: number;
  /**
   * idle: nothing turns and no steady wind is known; seeking: it may settle; settled: a plateau is
   * open; unsettled: it has been trying for long and what is seen (a cycle, gusts, a slow ramp)
   * will not settle by waiting.
   */
  readonly standing: 'idle' | 'seeking' | 'settled' | 'unsettled';
  /** For unsettled: what is seen. */
  readonly cause: 'cycle' | 'gusts' | 'drift' | null;
  /** The rotor stands, as far as its voltage tells. */
  readonly rotorStill: boolean;
  /** null: there is no anemometer. */
  readonly windBlows: boolean | null;
  /** Of each channel that is read: its newest mean, the channel's unit. */
  readonly levels: readonly Pick<ChannelMotion, 'channel' | 'level'>[];
}

/** A verdict as people are shown it, with figures that nothing is decided by. */
export interface Judgement
  extends Pick<Verdict, 'time_s' | 'cause' | 'rotorStill' | 'windBlows'> {
  /** As in the verdict; seeking is moving: some channel is far from steady; or settling. */
  readonly phase: Exclude<Verdict['standing'], 'seeking'> | 'moving' | 'settling';
  readonly channels: readonly ChannelMotion[];
  /** Oldest first; at most 24, fewer at low sample rates or just after a start. */
  readonly threads: readonly Thread[];
  /** Running mean of power with its uncertainty; null when voltage or current is missing. */
  readonly power_W: Estimate | null;
  /** Seconds until it can be settled if nothing else moves; null when that can't be said. */
  readonly remaining_s: number | null;
}

/** A plateau that has just been said to be one: since when, and when that was seen. */
export type Declared = Pick<Plateau, 'start_s' | 'declared_s'>;

/** What the detector says, in order. */
export type SettlingEvent =
  | { readonly kind: 'judged'; readonly verdict: Verdict }
  | ({ readonly kind: 'declared' } & Declared)
  | { readonly kind: 'closed'; readonly plateau: Plateau; readonly endReason: EndReason };
