/** What a channel of the board can read, as wired: the same for every kind of wiring. */
import type { GainUncertainty, OffsetCause } from './tolerance.ts';

export type WiredQuantity = 'voltage' | 'current';

/** All amounts in the SI unit of the quantity: V or A. */
export interface WiredChannel {
  readonly quantity: WiredQuantity;
  /** Worth of one count that the board sends. */
  readonly scale: number;
  /** The largest reading that can be told from an overflow. */
  readonly range: number;
  /** The smallest reading that the circuit can pass on. */
  readonly floor: number;
  /** Worth of one step of the converter: the finest that a single conversion can tell. */
  readonly step: number;
  /** Standard uncertainty that the step alone brings to a single conversion. */
  readonly stepUncertainty: number;
  readonly gain: GainUncertainty;
  /** As built, before a zero is taken. */
  readonly offsetUncertainty: number;
  readonly offsetCauses: readonly OffsetCause[];
}

/**
 * Standard uncertainty of the offset once a zero was taken with nothing flowing: zero and reading
 * are then each known to the nearest step (GUM F.2.2.1), and both count.
 */
export function zeroedOffsetUncertainty({ stepUncertainty }: WiredChannel): number {
  return Math.SQRT2 * stepUncertainty;
}
