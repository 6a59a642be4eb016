/** Taking back what an operator did, step by step, newest first. */
import type { Action } from '../../inputs.ts';
import type { Relabel } from '../command.ts';
import { STRIKE_REASONS } from '../strike-reasons.ts';
import { correctTrial, reviseTrial, trialOf, type TrialBook } from '../trial-book.ts';
import type { Trial } from '../trial.ts';
import type { Undoable } from '../view.ts';
import { changeLedger, type Conductor } from './conductor.ts';
import { changedBy, type Decided } from './decided.ts';
import { relabel } from './relabel.ts';
import type { Ledger } from './ledger.ts';
import type { Calibrated, Undone } from './undone.ts';

const MOST_UNDOS = 100;

/** @param was what was decided until now */
export function rememberDecision(
  conductor: Conductor,
  what: Undoable['what'],
  was: Decided,
): void {
  push(conductor, { done: { what, trialId: null }, before: changedBy(was, conductor.ledger) });
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

/** What a board's readings went through until now. */
export function rememberCalibration(conductor: Conductor, calibrated: Calibrated): void {
  push(conductor, { done: { what: 'correct-from-now', trialId: null }, calibrated });
}

/** The calibration that undo would bring back; null where it would do something else. */
export function calibrationBefore({ undos }: Pick<Ledger, 'undos'>): Calibrated | null {
  const last = undos.at(-1);
  return last !== undefined && 'calibrated' in last ? last.calibrated : null;
}

/** Kept with what is decided, so that it outlives the recording. */
function push(conductor: Conductor, undone: Undone): void {
  const undos = [...conductor.ledger.undos, undone].slice(-MOST_UNDOS);
  conductor.ledger = { ...conductor.ledger, undos };
}

const TAKEN_BACK = { struck: true, strikeReason: STRIKE_REASONS.takenBack };

/**
 * Takes the newest thing back; a calibration only out of the list, the reader is the pipeline's.
 * Returns the trials that it changed.
 */
export function undoLast(conductor: Conductor, book: TrialBook): Trial[] {
  const last = conductor.ledger.undos.at(-1);
  if (last === undefined) return [];
  conductor.ledger = { ...conductor.ledger, undos: conductor.ledger.undos.slice(0, -1) };
  if ('before' in last) {
    const before = last.before as Partial<Decided>;
    changeLedger(conductor, { ...conductor.ledger, ...before }, book.trials);
    return [];
  }
  if ('calibrated' in last) return [];
  if ('back' in last) return relabel(conductor, book, last.back);
  if ('corrections' in last) {
    return last.corrections.filter(({ trialId }) => isIn(book, trialId)).map(({ trialId, by }) => {
      return correctTrial(book, trialOf(book, trialId), by);
    });
  }
  const ids = 'made' in last ? last.made : [last.done.trialId ?? 0];
  const change = 'made' in last ? TAKEN_BACK : last.marks;
  return ids.filter((id) => isIn(book, id)).map((id) => reviseTrial(book, id, change));
}

/** One of an earlier recording may have been lost to damage. */
function isIn({ trials }: TrialBook, id: number): boolean {
  return trials.some((trial) => trial.id === id);
}
