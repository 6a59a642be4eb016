/** Taking back what an operator did, step by step, newest first. */
import type { Action } from '../../inputs.ts';
import type { Relabel } from '../command.ts';
import { correctTrial, reviseTrial, trialOf, type TrialBook } from '../trial-book.ts';
import type { Trial } from '../trial.ts';
import type { Undoable } from '../view.ts';
import type { Conductor } from './conductor.ts';
import { relabel } from './relabel.ts';
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

/** Trials that an operator had made. */
export function rememberMade(
  conductor: Conductor,
  what: 'log-now' | 'average' | 'fan-is-on' | 'key-in' | 'bring-in',
  trials: readonly Trial[],
): void {
  const made = trials.map(({ id }) => id);
  const trialId = made.length === 1 ? (made[0] ?? null) : null;
  push(conductor, { done: { what, trialId }, made });
}

/** @param trials as they were before */
export function rememberCorrections(conductor: Conductor, trials: readonly Trial[]): void {
  const corrections = trials.map(({ id, correction }) => {
    return { trialId: id, by: correction?.by ?? {} };
  });
  const trialId = corrections.length === 1 ? (corrections[0]?.trialId ?? null) : null;
  push(conductor, { done: { what: 'correct', trialId }, corrections });
}

/** @param back the same the other way round */
export function rememberRelabel(conductor: Conductor, back: Relabel): void {
  push(conductor, { done: { what: 'relabel', trialId: null }, back });
}

function push({ undos }: Conductor, undone: Undone): void {
  undos.push(undone);
  if (undos.length > MOST_UNDOS) undos.shift();
}

const TAKEN_BACK = { struck: true, strikeReason: 'Taken back.' };

/** Takes the newest thing back. Returns the trials that it changed. */
export function undoLast(conductor: Conductor, book: TrialBook): Trial[] {
  const last = conductor.undos.pop();
  if (last === undefined) return [];
  if ('ledger' in last) {
    // Which meters lie on the bench, what the rig measures with and how large it is was no decision.
    const { meters, instruments, rotorAndAir, airs } = conductor.ledger;
    conductor.ledger = { ...last.ledger, meters, instruments, rotorAndAir, airs };
    return [];
  }
  if ('back' in last) return relabel(conductor, book, last.back);
  if ('corrections' in last) {
    return last.corrections.map(({ trialId, by }) => {
      return correctTrial(book, trialOf(book, trialId), by);
    });
  }
  if ('made' in last) return last.made.map((id) => reviseTrial(book, id, TAKEN_BACK));
  return last.done.trialId === null ? [] : [reviseTrial(book, last.done.trialId, last.marks)];
}
