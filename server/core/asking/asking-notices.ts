/** What a person is told of requests to the board. */
import type { ChannelFrame, Frame } from '#protocol/frame.ts';
import type { Notice } from '../events.ts';

type Refusal = Exclude<Extract<Frame, { kind: 'answer' }>['result'], 'done'>;
type OwnRequest = 'identify' | 'pace';

const REFUSAL_WORDS: Readonly<Record<Refusal, string>> = {
  range: 'it was asked for something outside its limits',
  busy: 'it is busy; try again in a moment',
  unknown: 'its sketch does not know how',
};

export function paceRefused(result: Refusal): Notice {
  return {
    code: 'board-refused',
    message: `The board did not change its sample rate: ${REFUSAL_WORDS[result]}. It goes on as it is.`,
  };
}

/** A request that was made as often as it is made, in vain. */
export function unansweredNotice(request: OwnRequest, wasBusy: boolean): Notice {
  return { code: 'board-unanswered', message: UNANSWERED[request](wasBusy) };
}

const UNANSWERED: Readonly<Record<OwnRequest, (wasBusy: boolean) => string>> = {
  identify: () =>
    'The board was asked who it is, and its announcement did not come whole. Its sketch must answer *IDN? with $stillmark, $identity, a $channel line for each channel, and $pace.',
  pace: (wasBusy) =>
    wasBusy
      ? 'The board was too busy to change its sample rate, so it goes on as it is. Set the rate again to try again.'
      : 'The board does not answer when it is asked to change its sample rate, so it goes on as it is. Check that its sketch reads its serial port.',
};

export function refusalOfZero({ quantity }: ChannelFrame, result: Refusal): string {
  return `The board did not take a zero for ${quantity}: ${REFUSAL_WORDS[result]}.`;
}

export function zeroOverdueWords({ quantity }: ChannelFrame, wasAnswered: boolean): string {
  return wasAnswered
    ? `The board says that it took a zero for ${quantity}, but does not announce it. Look at its readings.`
    : `The board has not answered whether it took a zero for ${quantity}. Look at its readings, and try again.`;
}

/** "Zero of current taken: −37 counts, worth −4.5 mA (before: 0)." */
export function zeroTakenWords(before: ChannelFrame, now: ChannelFrame): string {
  const { quantity, unit, scale, gain, zero } = now;
  const worth = Number((gain * scale * zero).toPrecision(2));
  const was = zero === before.zero ? 'as before' : `before: ${signed(before.zero)}`;
  return `Zero of ${quantity} taken: ${signed(zero)} counts, worth ${signed(worth)} ${unit} (${was}).`;
}

function signed(value: number): string {
  return String(value).replace('-', '\u2212');
}
