/** One zero that the operator asked the board for, from the request to what came of it. */
import type { ChannelFrame, Frame } from '#protocol/frame.ts';
import { overdueZero, refusalOfZero, zeroTaken } from './asking-notices.ts';
import type { ZeroOutcome } from './zero-outcome.ts';

/** A board averages for a while before it answers. */
const ANSWER_WITHIN_S = 10;
/** The new zero is told in the next announcement: there is one at least every 10 s. */
const ANNOUNCED_WITHIN_S = 12;

export interface Zeroing {
  readonly channel: ChannelFrame;
  /** asked → answered (done, not yet announced) → over. */
  phase: 'asked' | 'answered' | 'over';
  /** What came of it; null while it is open. */
  came: ZeroOutcome | null;
  /** Arrival time after which it is given up. */
  until_s: number;
}

type Result = Extract<Frame, { kind: 'answer' }>['result'];

/** @param channel as announced before */
export function createZeroing(channel: ChannelFrame, at_s: number): Zeroing {
  return { channel, phase: 'asked', came: null, until_s: at_s + ANSWER_WITHIN_S };
}

export function isPending({ phase }: Zeroing): boolean {
  return phase !== 'over';
}

export function hearAnswerToZero(zeroing: Zeroing, result: Result, at_s: number): void {
  if (result !== 'done') {
    finish(zeroing, refusalOfZero(zeroing.channel, result));
  } else if (zeroing.phase === 'asked') {
    zeroing.phase = 'answered';
    zeroing.until_s = at_s + ANNOUNCED_WITHIN_S;
  }
}

/** The board announces a channel: once it has answered, with its new zero. */
export function hearOfZero(zeroing: Zeroing, channel: ChannelFrame): void {
  if (zeroing.phase !== 'answered' || channel.number !== zeroing.channel.number) return;
  finish(zeroing, zeroTaken(zeroing.channel, channel));
}

/** Nothing more is waited for. */
export function overdue(zeroing: Zeroing): void {
  finish(zeroing, overdueZero(zeroing.channel, zeroing.phase === 'answered'));
}

function finish(zeroing: Zeroing, came: ZeroOutcome): void {
  zeroing.phase = 'over';
  zeroing.came = came;
  zeroing.until_s = Infinity;
}
