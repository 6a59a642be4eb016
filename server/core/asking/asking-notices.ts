/** What a person is told of requests to the board. */
import type { ChannelFrame, Frame } from '#protocol/frame.ts';
import type { Notice } from '../events.ts';
import type { ZeroOutcome } from './zero-outcome.ts';

type Refusal = Exclude<Extract<Frame, { kind: 'answer' }>['result'], 'done'>;
type OwnRequest = 'identify' | 'pace';

/** Busy is no refusal: the board is asked again. */
export function paceRefused(result: Exclude<Refusal, 'busy'>): Notice {
  const why =
    result === 'range' ? 'that is outside its limits' : 'its sketch does not know how';
  return {
    code: 'board-refused',
    message: `The board did not change its sample rate: ${why}. It goes on as it is.`,
    about: [result],
  };
}

/** A request that was made as often as it is made, in vain. */
export function unansweredNotice(request: OwnRequest, wasBusy: boolean): Notice {
  const about = [request === 'pace' && wasBusy ? 'busy' : request];
  return { code: 'board-unanswered', message: UNANSWERED[request](wasBusy), about };
}

const UNANSWERED: Readonly<Record<OwnRequest, (wasBusy: boolean) => string>> = {
  identify: () =>
    'The board was asked who it is, and its announcement did not come whole. Its sketch must answer *IDN? with $stillmark, $identity, a $channel line for each channel, and $pace.',
  pace: (wasBusy) =>
    wasBusy
      ? 'The board was too busy to change its sample rate, so it goes on as it is. Set the rate again to try again.'
      : 'The board does not answer when it is asked to change its sample rate, so it goes on as it is. Check that its sketch reads its serial port.',
};

const REFUSAL_OF_ZERO: Readonly<Record<Refusal, string>> = {
  range: 'what it reads is too far from nothing. Stop the fan, wait until the blades rest, and check the wires.',
  busy: 'it is busy. Try again in a moment.',
  unknown: 'its sketch does not know how.',
};

export function refusalOfZero({ quantity }: ChannelFrame, result: Refusal): ZeroOutcome {
  const message = `The board took no zero of ${quantity}: ${REFUSAL_OF_ZERO[result]}`;
  return { outcome: result, message, about: [quantity] };
}

export function overdueZero({ quantity }: ChannelFrame, wasAnswered: boolean): ZeroOutcome {
  const message = wasAnswered
    ? `The board says that it took a zero of ${quantity}, but does not announce it. Look at its readings.`
    : `The board has not answered whether it took a zero of ${quantity}. Look at its readings, and try again.`;
  return { outcome: wasAnswered ? 'not-announced' : 'unanswered', message, about: [quantity] };
}

/** "Zero of current taken: −37 counts, worth −4.5 mA (before: 0)." */
export function zeroTaken(before: ChannelFrame, now: ChannelFrame): ZeroOutcome {
  const { quantity, unit, scale, gain, zero } = now;
  const worth = Number((gain * scale * zero).toPrecision(2));
  const was = zero === before.zero ? 'as before' : `before: ${signed(before.zero)}`;
  const amount = `${signed(worth)} ${unit}`;
  return {
    outcome: 'taken',
    message: `Zero of ${quantity} taken: ${signed(zero)} counts, worth ${amount} (${was}).`,
    about: [quantity, signed(zero), amount, signed(before.zero)],
  };
}

function signed(value: number): string {
  return String(value).replace('-', '\u2212');
}
