/** Which measured number is read as which channel. */
import type { Conversion, QuantityName } from '#protocol/quantity.ts';
import type { Configuration } from '../configuration.ts';
import type { Notice } from '../events.ts';
import type { Channel } from '../signal/sample.ts';
import { createSource, isPulses, type ChannelSource, type Measured } from './channel-source.ts';

export interface Sources {
  readonly voltage_V: ChannelSource | null;
  readonly current_A: ChannelSource | null;
  readonly windSpeed_mps: ChannelSource | null;
  readonly rotorSpeed_radps: ChannelSource | null;
}

export function hasSource(sources: Sources): boolean {
  return Object.values(sources).some((source) => source !== null);
}

/** Assigns at most one number to each channel; where two could be meant, neither is. */
export function assignChannels(
  measured: readonly Measured[],
  configuration: Configuration,
): { readonly sources: Sources; readonly notices: readonly Notice[] } {
  const notices = measured.flatMap((one) => noticesOfPulses(one, configuration));
  const targets = measured.map((one) => ({ one, target: targetOf(one, configuration) }));
  const only = (channel: Channel): ChannelSource | null => {
    const [first, second] = targets.filter(({ target }) => target?.channel === channel);
    if (first === undefined) return null;
    if (second !== undefined) {
      notices.push(twice(first.one.name, second.one.name));
      return null;
    }
    const conversion = first.target?.conversion ?? first.one.conversion;
    return createSource(channel, { ...first.one, conversion }, configuration.calibration[channel]);
  };
  const sources = {
    voltage_V: only('voltage_V'),
    current_A: only('current_A'),
    windSpeed_mps: only('windSpeed_mps'),
    rotorSpeed_radps: only('rotorSpeed_radps'),
  };
  return { sources, notices };
}

interface Target {
  readonly channel: Channel;
  readonly conversion: Conversion;
}

/** Which channel of a sample a quantity is; pulses can be either of two. */
export const CHANNEL_OF: Readonly<Partial<Record<QuantityName, Channel>>> = {
  voltage: 'voltage_V',
  current: 'current_A',
  windSpeed: 'windSpeed_mps',
  rotorSpeed: 'rotorSpeed_radps',
};

function targetOf({ quantity, conversion }: Measured, configuration: Configuration): Target | null {
  if (isPulses(quantity)) {
    const [only, ...others] = pulseTargets(quantity, configuration);
    return others.length === 0 ? (only ?? null) : null;
  }
  const channel = CHANNEL_OF[quantity];
  return channel === undefined ? null : { channel, conversion };
}

/** What pulses may stand for, with the conversion from pulses per second. */
function pulseTargets(quantity: QuantityName, configuration: Configuration): Target[] {
  const { windPerPulseRate_m, pulsesPerTurn } = configuration;
  const targets: Target[] = [];
  if (windPerPulseRate_m !== null && quantity !== 'rotorPulses') {
    const conversion = { multiplier: windPerPulseRate_m, divisor: 1 };
    targets.push({ channel: 'windSpeed_mps', conversion });
  }
  if (pulsesPerTurn !== null && quantity !== 'windPulses') {
    const conversion = { multiplier: 2 * Math.PI, divisor: pulsesPerTurn };
    targets.push({ channel: 'rotorSpeed_radps', conversion });
  }
  return targets;
}

function noticesOfPulses({ quantity, name }: Measured, configuration: Configuration): Notice[] {
  if (!isPulses(quantity)) return [];
  const count = pulseTargets(quantity, configuration).length;
  if (count === 1) return [];
  const message =
    count === 0
      ? `${name} counts pulses, but the settings don't say what one stands for: set the wind for one anemometer pulse a second, or the rotor's pulses for one turn.`
      : `${name} could count the anemometer's pulses or the rotor's: name it windPulses_count or rotorPulses_count in the sketch.`;
  return [{ code: count === 0 ? 'pulses-unset' : 'pulses-ambiguous', message, about: [name] }];
}

function twice(first: string, second: string): Notice {
  return {
    code: 'column-twice',
    message: `${first} and ${second} both give the same quantity, so neither is read: rename the one that is not meant.`,
    about: [first, second],
  };
}
