/** What the numbers of a line mean: compiled once from a header or an announcement. */
import type { ChannelFrame } from '#protocol/frame.ts';
import type { Column, Header, Separator, TimeUnit } from '#protocol/plain-header.ts';
import {
  conversionOf,
  quantityNamed,
  quantityNames,
  unitsOf,
  type Conversion,
  type QuantityName,
} from '#protocol/quantity.ts';
import { FIRST_COUNT_AT, SAMPLE_FIELDS, SEQUENCE_AT, TIME_AT } from '#protocol/stillmark-sample.ts';
import type { Configuration } from '../configuration.ts';
import type { Notice } from '../events.ts';
import type { Announcement } from './announcement.ts';
import { assignChannels, CHANNEL_OF, hasSource, type Sources } from './assignment.ts';
import { NOTHING_ANNOUNCED, type Measured } from './channel-source.ts';
import { FEWEST_COUNTS, LIMITS } from './limits.ts';

export interface Layout {
  readonly grammar: 'plain' | 'stillmark';
  /** Fields of a plain line; channels of a Stillmark line. */
  readonly fieldCount: number;
  /** The separator of plain lines; where no header said it, null until the first line that fits. */
  separator: Separator | null;
  /** Which fields of a plain line are read at all. */
  readonly wanted: Uint8Array;
  /** The numbers of the line being read; NaN for a missing one. */
  readonly values: Float64Array;
  /** Index of device time and sequence number among the values; null where there is none. */
  readonly timeAt: number | null;
  readonly timeUnit: TimeUnit;
  readonly sequenceAt: number | null;
  readonly sources: Sources;
}

/** A layout, or null when no reading could come of it, and what a person should know. */
export interface Compiled {
  readonly layout: Layout | null;
  readonly notices: readonly Notice[];
}

/** From the columns of a header, or of the configuration. */
export function layoutOfColumns(
  { columns, separator }: Header,
  configuration: Configuration,
): Compiled {
  const measured = columns.flatMap((column, at): Measured[] =>
    column.role === 'quantity' ? [{ ...column, at, announced: NOTHING_ANNOUNCED }] : [],
  );
  const { sources, notices } = assignChannels(measured, configuration);
  const time = columns.find(({ role }) => role === 'time');
  const timeAt = indexOfRole(columns, 'time');
  const sequenceAt = indexOfRole(columns, 'sequence');
  const used = new Set([timeAt, sequenceAt, ...Object.values(sources).map((source) => source?.at)]);
  const layout: Layout = {
    grammar: 'plain',
    fieldCount: columns.length,
    separator,
    wanted: Uint8Array.from(columns, (_, index) => (used.has(index) ? 1 : 0)),
    values: new Float64Array(columns.length),
    timeAt,
    timeUnit: time?.role === 'time' ? time.unit : 's',
    sequenceAt,
    sources,
  };
  return {
    layout: hasSource(sources) ? layout : null,
    notices: [...noticesOfColumns(columns), ...notices],
  };
}

/** From the channels that a board announced. */
export function layoutOfAnnouncement(
  { channels, timeUnit }: Announcement,
  configuration: Configuration,
): Compiled {
  const { sources, notices } = assignChannels(channels.flatMap(measuredBy), configuration);
  const layout: Layout = {
    grammar: 'stillmark',
    fieldCount: channels.length,
    separator: null,
    wanted: new Uint8Array(0),
    values: new Float64Array(SAMPLE_FIELDS),
    timeAt: TIME_AT,
    timeUnit,
    sequenceAt: SEQUENCE_AT,
    sources,
  };
  return {
    layout: hasSource(sources) ? layout : null,
    notices: [...channels.map(flawOf).filter((flaw) => flaw !== null), ...notices],
  };
}

/** The first column of a role that may be there only once. */
function indexOfRole(columns: readonly Column[], role: Column['role']): number | null {
  const index = columns.findIndex((column) => column.role === role);
  return index < 0 ? null : index;
}

function noticesOfColumns(columns: readonly Column[]): Notice[] {
  const ignored = columns.filter((column) => column.role === 'ignored');
  const notices: Notice[] = ignored
    .filter(({ units }) => units.length > 0)
    .map(({ name, units }) => {
      const known = units.map((unit) => `_${unit}`).join(', ');
      return {
        code: 'column-unit',
        message: `Column ${name} does not end in a unit that is known for it (${known}), so it is left out.`,
        about: [name, known],
      };
    });
  const unknown = ignored.filter(({ name, units }) => units.length === 0 && name !== '');
  if (unknown.length > 0) {
    const names = unknown.map(({ name }) => name).join(', ');
    notices.push({
      code: 'column-ignored',
      message: `Left out, because nothing here reads them: ${names}.`,
      about: [names],
    });
  }
  return notices;
}

function measuredBy(channel: ChannelFrame): Measured[] {
  const quantity = quantityNamed(channel.quantity);
  const conversion = quantity === null ? null : conversionOf(quantity, channel.unit);
  if (quantity === null || conversion === null || flawOf(channel) !== null) return [];
  const at = FIRST_COUNT_AT + channel.number - 1;
  return [{ name: nameOf(channel), quantity, at, conversion, announced: channel }];
}

function nameOf({ number, quantity }: ChannelFrame): string {
  return `channel ${number} (${quantity})`;
}

/** What is wrong with a channel as announced, and what to change in the sketch. */
function flawOf(channel: ChannelFrame): Notice | null {
  const quantity = quantityNamed(channel.quantity);
  const who = [String(channel.number), channel.quantity];
  if (quantity === null) {
    const names = quantityNames().join(', ');
    const message = `The board's ${nameOf(channel)} is no quantity that is known here, so it is left out. In the sketch, use one of: ${names}.`;
    return { code: 'channel-unknown', message, about: [...who, names] };
  }
  const conversion = conversionOf(quantity, channel.unit);
  if (conversion === null) {
    const message = `The board gives ${nameOf(channel)} in ${channel.unit}, which is not known for it, so it is left out. Use ${unitsOf(quantity).join(' or ')} in the sketch.`;
    return { code: 'channel-unit', message, about: [...who, channel.unit, ...unitsOf(quantity)] };
  }
  const fault = faultOfScale(channel, quantity, conversion);
  if (fault === null) return null;
  const message = `The board gives ${nameOf(channel)} ${fault}, so it is left out. Correct its scale, gain or unit in the sketch.`;
  return { code: 'channel-scale', message, about: who };
}

/** Quantities of which there can't be less than nothing. */
const NEVER_NEGATIVE: readonly QuantityName[] = [
  'windSpeed',
  'pulses',
  'windPulses',
  'rotorPulses',
];

function faultOfScale(
  { scale, gain, unit }: ChannelFrame,
  quantity: QuantityName,
  { multiplier, divisor }: Conversion,
): string | null {
  const step = scale * gain;
  if (step === 0) return 'a scale or gain of 0, which would erase every reading';
  if (step < 0 && NEVER_NEGATIVE.includes(quantity)) {
    return `a scale of ${step} ${unit} for a count, which would make less than nothing of it`;
  }
  const channel = CHANNEL_OF[quantity];
  const counted = (FEWEST_COUNTS * Math.abs(step) * multiplier) / divisor;
  if (channel !== undefined && counted > LIMITS[channel].highest) {
    return `a scale of ${step} ${unit} for a count, by which ${FEWEST_COUNTS} counts would be more than any rig has`;
  }
  return null;
}
