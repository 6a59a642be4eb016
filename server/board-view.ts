/** The board as viewers are shown it: what it announced, and what came of a zero. */
import { zeroObstacle } from '#core/asking/zero-doubt.ts';
import { isPending, type Zeroing } from '#core/asking/zeroing.ts';
import type { AnnouncedBoard } from '#core/live-messages.ts';
import type { PipelineState } from '#core/pipeline/state.ts';
import type { Layout } from '#core/reading/layout.ts';
import type { ChannelFrame } from '#protocol/frame.ts';
import { FIRST_COUNT_AT } from '#protocol/stillmark-sample.ts';

type Known = Pick<PipelineState, 'health' | 'reader' | 'asking'>;

/** Null where nothing is known, where the board sends plain lines or speaks another version. */
export function boardView(state: Known): AnnouncedBoard | null {
  const { connection, facts, layout } = state.reader;
  const { announcement, identity, pace } = facts;
  const isOurs = connection.speaksStillmark || announcement !== null;
  if (!isOurs || connection.foreignVersion !== null || layout?.grammar === 'plain') return null;
  return {
    identity: identity && withoutKind(identity),
    pace: pace && withoutKind(pace),
    channels: (announcement?.channels ?? []).map((channel) => ({
      ...withoutKind(channel),
      isRead: isRead(layout, channel),
      canZero: zeroObstacle(state, channel.number) === null,
    })),
    zeroing: state.asking.zeroing && zeroingView(state.asking.zeroing),
  };
}

function zeroingView(zeroing: Zeroing): AnnouncedBoard['zeroing'] {
  return {
    channel: zeroing.channel.number,
    isPending: isPending(zeroing),
    ...(zeroing.came ?? { message: null }),
  };
}

function isRead(layout: Layout | null, { number }: ChannelFrame): boolean {
  const at = FIRST_COUNT_AT + number - 1;
  return Object.values(layout?.sources ?? {}).some((source) => source?.at === at);
}

function withoutKind<T extends { readonly kind: string }>({ kind: _, ...rest }: T): Omit<T, 'kind'> {
  return rest;
}
