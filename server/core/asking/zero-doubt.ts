/** Whether the board can be asked for a zero, and whether it would be wise. */
import { conversionOf, quantityNamed } from '#protocol/quantity.ts';
import type { LinkHealth } from '../link.ts';
import { decimalAt, firstPlace } from '../metrology/format.ts';
import { isPulses } from '../reading/channel-source.ts';
import type { Reader } from '../reading/reader.ts';
import type { Judgement } from '../signal/plateau.ts';
import type { Channel } from '../signal/sample.ts';
import type { Asking } from './asking.ts';
import { isPending } from './zeroing.ts';

interface Bench {
  readonly reader: Reader;
  readonly asking: Asking;
  readonly health: LinkHealth;
}

/** What stands against asking for a zero of this channel, in a sentence; null when nothing does. */
export function zeroObstacle({ reader, asking, health }: Bench, number: number): string | null {
  const { introduced } = reader.connection;
  if (health !== 'reading') return 'No readings arrive, so no zero can be taken.';
  if (!introduced.grammar || !introduced.channels) {
    return 'The board has not announced that it can be asked for anything.';
  }
  const channel = reader.facts.announcement?.channels[number - 1];
  const quantity = channel === undefined ? null : quantityNamed(channel.quantity);
  if (channel === undefined || quantity === null) return `The board has no channel ${number}.`;
  if (conversionOf(quantity, channel.unit) === null || isPulses(quantity)) {
    return `The board's channel ${number} (${channel.quantity}) has no zero that could be taken.`;
  }
  if (asking.cannotZero) return "The board's sketch does not know how to take a zero.";
  if (asking.zeroing !== null && isPending(asking.zeroing)) return 'A zero is being taken already.';
  return null;
}

/**
 * Why a zero should not be taken now without a second thought; null when the rig is at rest. A
 * zero taken while the fan runs falsifies all that follows, so every reading that is not plainly
 * nothing is a reason to ask, though it may be the very offset that is to be removed.
 */
export function zeroDoubt(judgement: Judgement | null): string | null {
  if (judgement === null) return 'What the board reads is not known yet: wait a moment.';
  if (judgement.phase === 'idle') return null;
  const readings = judgement.channels.map(({ channel, level }) => inWords(channel, level));
  return `The board reads ${readings.join(', ')}. Is the fan off, and are the blades at rest?`;
}

const WORDS: Readonly<Record<Channel, readonly [name: string, unit: string, factor: number]>> = {
  voltage_V: ['voltage', 'mV', 1e3],
  current_A: ['current', 'mA', 1e3],
  windSpeed_mps: ['wind', 'm/s', 1],
  rotorSpeed_radps: ['rotor', 'rad/s', 1],
};

/** To two digits: it is to be recognised, not recorded. */
function inWords(channel: Channel, level: number): string {
  const [name, unit, factor] = WORDS[channel];
  const shown = level * factor;
  return `${name} ${shown === 0 ? '0' : decimalAt(shown, firstPlace(shown) - 1)} ${unit}`;
}
