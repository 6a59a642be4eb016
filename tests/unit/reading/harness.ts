/** Reads lines through the reader and keeps copies of what they told. */
import {
  ConfigurationSchema,
  DEFAULT_CONFIGURATION,
  type Configuration,
} from '#core/configuration.ts';
import type { Link } from '#core/link.ts';
import { createReader, openLink, readLine, type Reader } from '#core/reading/reader.ts';
import type { Reading } from '#core/reading/reading.ts';
import type { Frame } from '#protocol/frame.ts';
import { formatFrame } from '#protocol/stillmark-line.ts';

export const BOARD: Link = {
  source: 'serial',
  id: 'usb:0001:0002:A',
  name: 'USB board',
  clock: 'arrival',
  wholeFromStart: true,
};

export function configured(settings: Partial<Configuration>): Configuration {
  return ConfigurationSchema.parse({ ...DEFAULT_CONFIGURATION, ...settings });
}

/** A reader with an open link. */
export function openReader(
  link: Partial<Link> = {},
  settings: Partial<Configuration> = {},
): Reader {
  const reader = createReader(configured(settings));
  openLink(reader, { ...BOARD, ...link }, 0);
  return reader;
}

/** Reads lines, given with their arrival times or `period_s` apart, in whole µs. */
export function readAll(
  reader: Reader,
  lines: readonly (string | readonly [string, number])[],
  { from_s = 1, period_s = 0.1 } = {},
): Reading[] {
  return lines.map((line, index) => {
    const [text, at_s] = typeof line === 'string' ? [line, from_s + index * period_s] : line;
    return { ...readLine(reader, text, Math.round(at_s * 1e6) / 1e6) };
  });
}

/** Reads one line. */
export function read(reader: Reader, text: string, at_s = 1): Reading {
  return { ...readLine(reader, text, at_s) };
}

export function codesOf(readings: readonly Reading[]): string[] {
  return readings.flatMap(({ notices }) => notices.map(({ code }) => code));
}

export function faultsOf(readings: readonly Reading[]): string[] {
  return readings.flatMap(({ faults }) => faults);
}

export function timesOf(readings: readonly Reading[]): number[] {
  return readings.flatMap(({ sample }) => (sample === null ? [] : [sample.time_s]));
}

/** Device clocks are placed by adding; what that rounds off is no matter here. */
export function roundedTimesOf(readings: readonly Reading[]): number[] {
  return timesOf(readings).map((time_s) => Number(time_s.toFixed(9)));
}

type ChannelFrame = Extract<Frame, { kind: 'channel' }>;

export function channel(
  number: number,
  quantity: string,
  unit: string,
  rest: Partial<ChannelFrame> = {},
): ChannelFrame {
  return {
    kind: 'channel',
    number,
    quantity,
    unit,
    scale: 1,
    zero: 0,
    gain: 1,
    offset: 0,
    gainUncertainty: null,
    offsetUncertainty: null,
    ...rest,
  };
}

/** The lines of an announcement. */
export function announce(
  channels: readonly ChannelFrame[],
  cause: 'boot' | 'again' = 'boot',
  timeUnit: 'us' | 'ms' = 'ms',
): string[] {
  const opening: Frame = { kind: 'opening', cause, timeUnit, channelCount: channels.length };
  return [opening, ...channels].map(formatFrame);
}

export function sampleLine(sequence: number, time: number, ...counts: (number | null)[]): string {
  return formatFrame({ kind: 'sample', sequence, time, counts });
}
