/** What a device with a pass may do of what is done during a run; the rest is done at the bench. */
import type { Command } from './experiment/command.ts';
import type { Undoable } from './experiment/view.ts';
import type { ActionRequest } from './live-messages.ts';

const OPERATOR_SAYS: Readonly<Record<Command['say'], boolean>> = {
  plan: false,
  predict: false,
  again: true,
  skip: true,
  unskip: true,
  'take-up': true,
  'is-set': true,
  'log-now': true,
  average: true,
  'leave-it': true,
  wait: true,
  'go-on': true,
  'fan-is-on': true,
  'key-in': true,
  'bring-in': false,
  correct: false,
  relabel: false,
  'accept-finding': true,
  'rotor-and-air': false,
  'fit-generator': false,
  'fit-lamp': false,
  cover: true,
  reveal: true,
  // … of what an operator may do.
  undo: true,
};

const OPERATOR_ACTS: Readonly<Record<ActionRequest['kind'], boolean>> = {
  strike: true,
  restore: true,
  note: true,
  move: true,
};

/** @param undoes what undo would take back now */
export function operatorMaySay(say: Command['say'], undoes: Pick<Undoable, 'what'> | null): boolean {
  if (say !== 'undo' || undoes === null) return OPERATOR_SAYS[say];
  if (undoes.what === 'correct-from-now') return false;
  return { ...OPERATOR_SAYS, ...OPERATOR_ACTS }[undoes.what];
}

export function operatorMayAct(kind: ActionRequest['kind']): boolean {
  return OPERATOR_ACTS[kind];
}
