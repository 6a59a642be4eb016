/** Which word on the instruments counts: the board's own, and the operator's. */
import { wiredChannel, type Quantity } from './causes.ts';
import { zeroedOffsetUncertainty } from './channel.ts';
import type { CurrentMeans, Instrument, Stated, VoltageMeans } from './instrument.ts';

/** What a board says of its own calibration; null where it says nothing. */
export interface Announced {
  readonly voltage: Stated | null;
  readonly current: Stated | null;
}

export const NOTHING_ANNOUNCED: Announced = { voltage: null, current: null };

/**
 * A board knows how it was calibrated, so its word on a gain goes before the operator's. Of a zero
 * it mostly says nothing; then the operator's word on the parts tells how well it is known.
 */
export function instrumentInUse(said: Instrument, announced: Announced): Instrument {
  return {
    voltage: announced.voltage === null ? said.voltage : withZero('voltage', announced.voltage, said.voltage),
    current: announced.current === null ? said.current : withZero('current', announced.current, said.current),
  };
}

function withZero(
  quantity: Quantity,
  announced: Stated,
  said: VoltageMeans | CurrentMeans | null,
): Stated {
  if (announced.offsetUncertainty !== null || said === null || said.kind === 'meter') {
    return announced;
  }
  return { ...announced, offsetUncertainty: offsetOf(quantity, said) };
}

function offsetOf(
  quantity: Quantity,
  said: Exclude<VoltageMeans | CurrentMeans, { kind: 'meter' }>,
): number | null {
  if (said.kind === 'stated') return said.offsetUncertainty;
  const channel = wiredChannel(quantity, said);
  return said.isZeroed ? zeroedOffsetUncertainty(channel) : channel.offsetUncertainty;
}
