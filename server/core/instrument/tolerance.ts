/**
 * What a part's tolerance means for a measurement (Type B evaluation).
 *
 * A tolerance of ±a says no more than that the value lies within it. The distribution to be
 * assumed is then rectangular, with the standard uncertainty a/√3 (JCGM 100:2008 (GUM), 4.3.7).
 */

import { z } from 'zod';

/** ± relative, as a fraction: 0.05 is ±5 %. */
export const RelativeLimitSchema = z.number().min(0).max(1);

/** Standard uncertainty of what is only known to lie within ±`limit`, in the limit's own unit. */
export function rectangular(limit: number): number {
  return limit / Math.sqrt(3);
}

/**
 * Standard uncertainty of what is known to the nearest whole step: step/√12 (GUM F.2.2.1).
 * It is that of a limit of half a step.
 */
export function ofStep(step: number): number {
  return step / Math.sqrt(12);
}

/** The parts and zeros that a reading depends on, by the names that pages know them by. */
export const CAUSE_NAMES = [
  'reference of the converter',
  'upper resistor',
  'lower resistor',
  'shunt',
  'gain of the amplifier',
  'gain of the monitor',
  'zero of the converter',
  'zero of the amplifier',
  'zero of the monitor',
] as const;
export type CauseName = (typeof CAUSE_NAMES)[number];

/** One part that the worth of a count depends on. */
export interface GainCause {
  readonly name: CauseName;
  /** Relative limits of the part, ±, as a fraction. */
  readonly limit: number;
  /** By how many per cent a count's worth changes when the part changes by one per cent. */
  readonly sensitivity: number;
  /** The same part serves the board's other channel, so that both are wrong by it alike. */
  readonly shared: boolean;
}

/** One cause of a reading's shift, the same at every reading. */
export interface OffsetCause {
  readonly name: CauseName;
  /** Limits, ±, in the SI unit of the channel's quantity. */
  readonly limit: number;
  /** It moves the board's other channel too, by as many steps and the same way. */
  readonly shared: boolean;
}

/** Relative standard uncertainty of a channel's gain, as fractions. */
export interface GainUncertainty {
  readonly relative: number;
  /** The part that the board's other channel has in common, fully correlated. */
  readonly shared: number;
  /** The part that is this channel's alone. */
  readonly own: number;
  readonly causes: readonly GainCause[];
}

/** What one cause adds: u_i(y)/y = |sensitivity| · u(x)/x. */
export function contribution({ limit, sensitivity }: GainCause): number {
  return Math.abs(sensitivity) * rectangular(limit);
}

/** Law of propagation for independent causes: the squares are added (GUM 5.1.2, 5.1.6). */
export function gainUncertainty(causes: readonly GainCause[]): GainUncertainty {
  const of = (chosen: readonly GainCause[]): number => Math.hypot(...chosen.map(contribution));
  return {
    relative: of(causes),
    shared: of(causes.filter(({ shared }) => shared)),
    own: of(causes.filter(({ shared }) => !shared)),
    causes,
  };
}

/** Standard uncertainty of a channel's offset, in the SI unit of its quantity. */
export function offsetUncertainty(causes: readonly OffsetCause[]): number {
  return Math.hypot(...causes.map(({ limit }) => rectangular(limit)));
}

/**
 * Relative standard uncertainty of power, from two channels that share a part. What is shared
 * makes both wrong by the same share, so it counts twice before the squares are added (GUM 5.2.2,
 * with a correlation coefficient of 1).
 */
export function powerUncertainty(voltage: GainUncertainty, current: GainUncertainty): number {
  return Math.hypot(voltage.shared + current.shared, voltage.own, current.own);
}
