/** Whether the board can be asked for a zero, and whether it would be wise. */
import { conversionOf, quantityNamed } from '#protocol/quantity.ts';
import type { LinkHealth } from '../link.ts';
import { decimalAt, firstPlace } from '../metrology/format.ts';
import type { Obstacle } from '../obstacle.ts';
import { isPulses } from '../reading/channel-source.ts';
import type { Reader } from '../reading/reader.ts';
import type { Verdict } from '../signal/plateau.ts';
import type { Channel } from '../signal/sample.ts';
import type { Asking } from './asking.ts';
import { isPending } from './zeroing.ts';

interface Bench {
  readonly reader: Reader;
  readonly asking: Asking;
  readonly health: LinkHealth;
}

/** What stands against asking for a zero of this channel; null when nothing does. */
export function zeroObstacle({ reader, asking, health }: Bench, number: number): Obstacle | null {
  const { introduced } = reader.connection;
  const obstacle = (which: string, message: string, quantity = ''): Obstacle => {
    return { message, about: [which, String(number), quantity] };
  };
  if (health !== 'reading') {
    return obstacle('no-readings', 'No readings arrive, so no zero can be taken.');
  }
  if (!introduced.grammar || !introduced.channels) {
    return obstacle('not-announced', 'The board has not announced that it can be asked for anything.');
  }
  const channel = reader.facts.announcement?.channels[number - 1];
  const quantity = channel === undefined ? null : quantityNamed(channel.quantity);
  if (channel === undefined || quantity === null) {
    return obstacle('no-channel', `The board has no channel ${number}.`);
  }
  if (conversionOf(quantity, channel.unit) === null || isPulses(quantity)) {
    const message = `The board's channel ${number} (${channel.quantity}) has no zero that could be taken.`;
    return obstacle('no-zero', message, channel.quantity);
  }
  if (asking.cannotZero) {
    return obstacle('unknown', "The board's sketch does not know how to take a zero.");
  }
  if (asking.zeroing !== null && isPending(asking.zeroing)) {
    return obstacle('under-way', 'A zero is being taken already.');
  }
  return null;
}

/**
 * Why a zero should not be taken now without a second thought; null when the rig is at rest. A
 * zero taken while the fan runs falsifies all that follows, so every reading that is not plainly
 * nothing is a reason to ask, though it may be the very offset that is to be removed.
 */
export function zeroDoubt(verdict: Verdict | null): Obstacle | null {
  if (verdict === null) {
    const message = 'What the board reads is not known yet: wait a moment.';
    return { message, about: ['not-known'] };
  }
  if (verdict.standing === 'idle') return null;
  const readings = verdict.levels.map(({ channel, level }) => inWords(channel, level));
  const said = readings.map(([name, amount]) => `${name} ${amount}`).join(', ');
  return {
    message: `The board reads ${said}. Is the fan off, and are the blades at rest?`,
    about: ['reads', ...readings.flat()],
  };
}

const WORDS: Readonly<Record<Channel, readonly [name: string, unit: string, factor: number]>> = {
  voltage_V: ['voltage', 'mV', 1e3],
  current_A: ['current', 'mA', 1e3],
  windSpeed_mps: ['wind', 'm/s', 1],
  rotorSpeed_radps: ['rotor', 'rad/s', 1],
};

/** To two digits: it is to be recognised, not recorded. */
function inWords(channel: Channel, level: number): readonly [name: string, amount: string] {
  const [name, unit, factor] = WORDS[channel];
  const shown = level * factor;
  const number = shown === 0 ? '0' : decimalAt(shown, firstPlace(shown) - 1);
  return [name, `${number} ${unit}`];
}
