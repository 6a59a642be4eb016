/** What a board says of how well its channels are calibrated, in SI and after the operator's gain. */
import { conversionOf, quantityNamed } from '#protocol/quantity.ts';
import { FIRST_COUNT_AT } from '#protocol/stillmark-sample.ts';
import { NOTHING_ANNOUNCED, type Announced } from '../instrument/in-use.ts';
import type { Stated } from '../instrument/instrument.ts';
import type { ChannelSource } from './channel-source.ts';
import type { Reader } from './state.ts';

export function announcedUncertainties({ layout, facts }: Reader): Announced {
  if (layout?.grammar !== 'stillmark') return NOTHING_ANNOUNCED;
  const { voltage_V, current_A } = layout.sources;
  const channels = facts.announcement?.channels ?? [];
  const of = (source: ChannelSource | null): Stated | null => {
    const channel = channels.find(({ number }) => FIRST_COUNT_AT + number - 1 === source?.at);
    if (source === null || channel === undefined || channel.gainUncertainty === null) return null;
    const quantity = quantityNamed(channel.quantity);
    const conversion = quantity && conversionOf(quantity, channel.unit);
    if (conversion === null) return null;
    const { gain, gainUncertainty, offsetUncertainty } = channel;
    const toSi = (Math.abs(source.ownGain) * conversion.multiplier) / conversion.divisor;
    return {
      kind: 'stated',
      gainUncertainty: Math.min(gainUncertainty / Math.abs(gain), 1),
      offsetUncertainty: offsetUncertainty === null ? null : offsetUncertainty * toSi,
    };
  };
  return { voltage: of(voltage_V), current: of(current_A) };
}
