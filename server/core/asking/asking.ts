/**
 * What the board is asked: to say who it is, to send at the wanted pace, and, when the operator
 * wants it, to take a zero. Decided from recorded inputs alone: a replay decides the same, and
 * nobody sends it. A board that has not announced our grammar over this connection is asked for
 * nothing.
 *
 * No request goes on for ever: each is tried a few times, and a connection gets a limited number of
 * them. A zero is asked for once only, because by the next try the fan may run.
 */
import type { Frame, Request } from '#protocol/frame.ts';
import type { Event } from '../events.ts';
import type { Reader } from '../reading/reader.ts';
import { paceRefused, unansweredNotice } from './asking-notices.ts';
import { wantedPeriod_us } from './pace.ts';
import {
  createZeroing,
  hearAnswerToZero,
  hearOfZero,
  isPending,
  overdue,
  type Zeroing,
} from './zeroing.ts';

/** An announcement that has begun is given this long to come to its end. */
const ANNOUNCING_S = 1;
/** A request that is not answered, or to which the board says that it is busy, is made again. */
const AGAIN_AFTER_S = 2;
const TRIES = 3;
/** A board that restarts at every request would otherwise be asked for ever. */
const MOST_OVER_A_CONNECTION = 30;

/** What the program asks for by itself. */
interface Wish {
  tries: number;
  /** Answered, refused or given up. */
  isOver: boolean;
  wasBusy: boolean;
}

/** Begun afresh with each connection; changed in place by these functions alone. */
export interface Asking {
  identify: Wish;
  pace: Wish;
  zeroing: Zeroing | null;
  /** The board does not know how to take a zero. */
  cannotZero: boolean;
  /** There may be something to ask for. */
  isAwake: boolean;
  /** Nothing is asked before, arrival time. */
  notBefore_s: number;
  left: number;
}

type AnswerFrame = Extract<Frame, { kind: 'answer' }>;

export function createAsking(): Asking {
  return {
    identify: createWish(),
    pace: createWish(),
    zeroing: null,
    cannotZero: false,
    isAwake: false,
    notBefore_s: 0,
    left: MOST_OVER_A_CONNECTION,
  };
}

function createWish(): Wish {
  return { tries: 0, isOver: false, wasBusy: false };
}

/** Whether `ask` would do anything: to be looked at with every line and tick. */
export function isDue({ isAwake, notBefore_s, zeroing }: Asking, at_s: number): boolean {
  return (isAwake && at_s >= notBefore_s) || (zeroing !== null && at_s >= zeroing.until_s);
}

/** Takes in what the board said, other than a sample. The reader has taken it in before. */
export function hear(asking: Asking, frame: Frame, at_s: number): readonly Event[] {
  asking.isAwake = true;
  switch (frame.kind) {
    case 'opening':
      if (frame.cause === 'boot') beginAgain(asking);
      asking.notBefore_s = Math.max(asking.notBefore_s, at_s + ANNOUNCING_S);
      break;
    case 'pace':
      // The last line of an announcement: there is no more to wait for, but an answer perhaps.
      if (asking.pace.tries === 0) asking.notBefore_s = Math.min(asking.notBefore_s, at_s);
      break;
    case 'answer':
      return takeAnswer(asking, frame, at_s);
    case 'channel':
      if (asking.zeroing !== null) hearOfZero(asking.zeroing, frame);
      break;
    case 'identity':
    case 'foreign':
      break;
    case 'beat':
    case 'button':
    case 'trouble':
    case 'sample':
      return [];
  }
  return [{ kind: 'board' }];
}

/** A board that has just started knows nothing of what it was asked. */
function beginAgain(asking: Asking): void {
  asking.identify = createWish();
  asking.pace = createWish();
  asking.cannotZero = false;
  if (asking.zeroing !== null && isPending(asking.zeroing)) overdue(asking.zeroing);
}

/** The operator wants another pace. */
export function wantAnew(asking: Asking): void {
  asking.pace = createWish();
  asking.isAwake = true;
}

/** Asks the board for a zero of a channel that `zeroObstacle` has nothing against. */
export function askForZero(
  asking: Asking,
  { facts }: Reader,
  channel: number,
  at_s: number,
): readonly Event[] {
  const frame = facts.announcement?.channels[channel - 1];
  if (frame === undefined) return [];
  asking.zeroing = createZeroing(frame, at_s);
  return [{ kind: 'ask', request: { kind: 'zero', channel } }, { kind: 'board' }];
}

/** Asks for what is still wanted, when it is time. */
export function ask(asking: Asking, reader: Reader, at_s: number): readonly Event[] {
  const { zeroing } = asking;
  if (zeroing !== null && at_s >= zeroing.until_s) {
    overdue(zeroing);
    return [{ kind: 'board' }];
  }
  const request = wanted(asking, reader);
  if (request === null) {
    asking.isAwake = false;
    return [];
  }
  const wish = asking[request.kind];
  if (wish.tries === TRIES || asking.left === 0) {
    wish.isOver = true;
    return [{ kind: 'notice', notice: unansweredNotice(request.kind, wish.wasBusy) }];
  }
  wish.tries += 1;
  asking.left -= 1;
  asking.notBefore_s = at_s + AGAIN_AFTER_S;
  return [{ kind: 'ask', request }];
}

type OwnRequest = Exclude<Request, { kind: 'zero' }>;

/** The next thing that the program wants of this board; null when there is none. */
function wanted({ identify, pace }: Asking, reader: Reader): OwnRequest | null {
  const { introduced } = reader.connection;
  if (!introduced.grammar || reader.layout?.grammar === 'plain') return null;
  const isWhole = introduced.channels && introduced.identity && introduced.pace;
  if (!isWhole && !identify.isOver) return { kind: 'identify' };
  const announced = introduced.pace ? reader.facts.pace : null;
  if (announced === null || pace.isOver) return null;
  const period_us = wantedPeriod_us(reader.configuration, announced);
  return period_us === announced.period_us ? null : { kind: 'pace', period_us };
}

function takeAnswer(asking: Asking, answer: AnswerFrame, at_s: number): readonly Event[] {
  const { zeroing, pace } = asking;
  // "other" is what a board answers that does not know the request at all.
  const isForZero = zeroing !== null && isPending(zeroing) && answer.request !== 'pace';
  if (isForZero) {
    hearAnswerToZero(zeroing, answer.result, at_s);
    asking.cannotZero ||= answer.result === 'unknown';
    return [{ kind: 'board' }];
  }
  if (answer.request === 'zero') return [];
  if (answer.result === 'busy') {
    pace.wasBusy = true;
    asking.notBefore_s = at_s + AGAIN_AFTER_S;
    return [];
  }
  if (pace.tries === 0) return [];
  pace.isOver = true;
  if (answer.result === 'done') return [];
  return [{ kind: 'notice', notice: paceRefused(answer.result) }];
}
