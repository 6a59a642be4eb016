/** What a button on the board does. */
import { reviseTrial, type TrialBook } from '../experiment/trial-book.ts';
import type { Event, Notice } from '../events.ts';
import type { BoardEvent } from '../reading/reading.ts';

const BY_BUTTON = 'Struck with the button on the board.';

/**
 * `strike` sets the newest trial of this recording aside, as an operator would. The other two
 * belong to a plan, which this program does not have: they are said to do nothing.
 */
export function press(
  book: TrialBook,
  recordingId: number,
  { button }: Pick<BoardEvent, 'button'>,
): readonly Event[] {
  if (button !== 'strike') return [told({ code: 'button-unused', message: UNUSED[button] })];
  const newest = book.trials.findLast((trial) => trial.recordingId === recordingId);
  if (newest === undefined) return [struck('there is no trial to strike yet.')];
  if (newest.struck) return [struck(`trial ${newest.id} is struck already. Restore it in the list.`)];
  const trial = reviseTrial(book, newest.id, { struck: true, strikeReason: BY_BUTTON });
  return [
    { kind: 'trial', trial },
    struck(`trial ${trial.id} is struck. To take that back, restore it in the list.`),
  ];
}

const UNUSED: Readonly<Record<Exclude<BoardEvent['button'], 'strike'>, string>> = {
  log: 'The log button on the board was pressed. Nothing needs to be done: every steady stretch is logged by itself.',
  next: 'The next button on the board was pressed. It does nothing: there is no plan to go on in.',
};

function struck(what: string): Event {
  return told({ code: 'button-strike', message: `Strike button on the board: ${what}` });
}

function told(notice: Notice): Event {
  return { kind: 'notice', notice };
}
