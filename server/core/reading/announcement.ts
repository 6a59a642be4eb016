/** What a board says about itself, gathered from the lines of its announcement. */
import type { ChannelFrame, Frame } from '#protocol/frame.ts';

type Identity = Extract<Frame, { kind: 'identity' }>;
type Pace = Extract<Frame, { kind: 'pace' }>;
type Opening = Extract<Frame, { kind: 'opening' }>;

export interface Announcement {
  readonly timeUnit: Opening['timeUnit'];
  /** In the order of the sample lines' fields. */
  readonly channels: readonly ChannelFrame[];
}

/** An announcement on its way: complete once every channel has been heard. */
export interface AnnouncementInParts {
  readonly opening: Opening;
  readonly channels: Map<number, ChannelFrame>;
}

/** All that a board has told of itself so far. */
export interface BoardFacts {
  announcement: Announcement | null;
  identity: Identity | null;
  pace: Pace | null;
}

export function createFacts(): BoardFacts {
  return { announcement: null, identity: null, pace: null };
}

/** Takes one channel line; the announcement when it was the last one missing, else null. */
export function takeChannel(
  parts: AnnouncementInParts,
  channel: ChannelFrame,
): Announcement | null {
  const { opening, channels } = parts;
  if (channel.number > opening.channelCount) return null;
  channels.set(channel.number, channel);
  if (channels.size < opening.channelCount) return null;
  return {
    timeUnit: opening.timeUnit,
    channels: [...channels.values()].sort((a, b) => a.number - b.number),
  };
}

export function isSameAnnouncement(a: Announcement | null, b: Announcement): boolean {
  return a !== null && JSON.stringify(a) === JSON.stringify(b);
}
