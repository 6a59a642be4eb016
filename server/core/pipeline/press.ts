/** What the buttons on the board do: what an operator would do on the page. */
import type { Event } from '../events.ts';
import { noteMarks } from '../experiment/conductor/conductor.ts';
import { follow, obstacleTo } from '../experiment/conductor/command.ts';
import { rememberMarks } from '../experiment/conductor/undo.ts';
import { STRIKE_REASONS } from '../experiment/strike-reasons.ts';
import { reviseTrial } from '../experiment/trial-book.ts';
import type { Obstacle } from '../obstacle.ts';
import type { BoardEvent } from '../reading/reading.ts';
import { commandObstacle, takeCommand } from './command.ts';
import type { PipelineState } from './state.ts';

export function press(
  state: PipelineState,
  { button }: Pick<BoardEvent, 'button'>,
  at_s: number,
): readonly Event[] {
  switch (button) {
    case 'strike':
      return strike(state);
    case 'log':
      return log(state, at_s);
    case 'next':
      return [setUp(state), { kind: 'experiment' }];
  }
}

/** Sets the newest trial of this recording aside. */
function strike({ book, conductor, recordingId }: PipelineState): readonly Event[] {
  const newest = book.trials.findLast((trial) => trial.recordingId === recordingId);
  if (newest === undefined) return [told('strike', 'there is no trial to strike yet.', 'none')];
  if (newest.struck) {
    const what = `trial ${newest.id} is struck already. Restore it in the list.`;
    return [told('strike', what, 'already', newest.id)];
  }
  rememberMarks(conductor, 'strike', newest);
  const marks = { struck: true, strikeReason: STRIKE_REASONS.byButton };
  const trial = reviseTrial(book, newest.id, marks);
  noteMarks(conductor, trial);
  return [
    { kind: 'trial', trial },
    told(
      'strike',
      `trial ${trial.id} is struck. To take that back, restore it in the list.`,
      'struck',
      trial.id,
    ),
    { kind: 'experiment' },
  ];
}

function log(state: PipelineState, at_s: number): readonly Event[] {
  const obstacle = commandObstacle(state, { say: 'log-now' });
  if (obstacle !== null) return [refused('log', obstacle)];
  const events = takeCommand(state, { say: 'log-now' }, at_s);
  const newest = state.book.trials.at(-1);
  return [...events, told('log', `logged as trial ${newest?.id}.`, 'logged', newest?.id)];
}

/** The rig is set for the next run, though no stop could be heard. */
function setUp({ conductor, book }: PipelineState): Event {
  if (conductor.ledger.plan === null) return told('next', 'there is no plan to go on in.', 'no-plan');
  const obstacle = obstacleTo(conductor, { say: 'is-set' }, book.trials);
  if (obstacle !== null) return refused('next', obstacle);
  if (conductor.phase !== 'unready') return told('next', 'the run is set up already.', 'set-already');
  follow(conductor, { say: 'is-set' }, book.trials);
  return told('next', 'the rig counts as set for the next run.', 'set');
}

function refused(button: BoardEvent['button'], { message, about }: Obstacle): Event {
  const [why = '', trial] = about;
  return told(button, message, why, trial);
}

/** @param came what came of it, in a word */
function told(
  button: BoardEvent['button'],
  what: string,
  came: string,
  trial: number | string = '',
): Event {
  const name = button[0]?.toUpperCase() + button.slice(1);
  const message = `${name} button on the board: ${what}`;
  return { kind: 'notice', notice: { code: 'button-press', message, about: [came, String(trial)] } };
}
