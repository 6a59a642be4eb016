/** Taking back what an operator did, step by step, newest first. */
import type { Action } from '../../inputs.ts';
import { reviseTrial, type TrialBook } from '../trial-book.ts';
import type { Trial } from '../trial.ts';
import type { Undoable } from '../view.ts';
import type { Conductor } from './conductor.ts';
import type { Undone } from './undone.ts';

const MOST_UNDOS = 100;

export function rememberLedger(conductor: Conductor, what: Undoable['what']): void {
  push(conductor, { done: { what, trialId: null }, ledger: conductor.ledger });
}

/** @param trial as it was before */
export function rememberMarks(conductor: Conductor, what: Action['kind'], trial: Trial): void {
  const { struck, strikeReason, note, runId, factors } = trial;
  const marks = { struck, strikeReason, note, runId, factors };
  push(conductor, { done: { what, trialId: trial.id }, marks });
}

const TAKEN_BACK = 'Taken back.';

/** A trial that an operator had made: to take that back is to strike it. */
export function rememberMade(
  conductor: Conductor,
  what: 'log-now' | 'average' | 'fan-is-on',
  { id, note, runId, factors }: Trial,
): void {
  const marks = { struck: true, strikeReason: TAKEN_BACK, note, runId, factors };
  push(conductor, { done: { what, trialId: id }, marks });
}

function push({ undos }: Conductor, undone: Undone): void {
  undos.push(undone);
  if (undos.length > MOST_UNDOS) undos.shift();
}

/** Takes the newest thing back. Returns the trial that it changed, if it was done to one. */
export function undoLast(conductor: Conductor, book: TrialBook): Trial | null {
  const last = conductor.undos.pop();
  if (last === undefined) return null;
  if ('ledger' in last) {
    conductor.ledger = last.ledger;
    return null;
  }
  return last.done.trialId === null ? null : reviseTrial(book, last.done.trialId, last.marks);
}
