/**
 * The book of a session's trials: it numbers them, counts their revisions and applies what the
 * operator does. It lives across the recordings of a session; nothing is ever deleted from it.
 */
import type { Action } from '../inputs.ts';
import type { DerivedTrial } from './trial-life.ts';
import type { Trial } from './trial.ts';

export interface TrialBook {
  nextId: number;
  /** The newest revision of each trial, in order of number. */
  readonly trials: Trial[];
}

/** A book holding the trials committed so far (none for a new session). */
export function createBook(trials: readonly Trial[] = []): TrialBook {
  const nextId = trials.reduce((next, trial) => Math.max(next, trial.id + 1), 1);
  return { nextId, trials: [...trials].sort((a, b) => a.id - b.id) };
}

/** Enters a new trial as revision 1. */
export function enterTrial(
  book: TrialBook,
  derived: DerivedTrial,
  where: Pick<Trial, 'recordingId' | 'recorded_s' | 'origin'>,
): Trial {
  const trial: Trial = {
    id: book.nextId,
    revision: 1,
    ...derived,
    ...where,
    simulated: where.origin === 'simulated',
    factors: {},
    runId: null,
    powerCoefficient: null,
    struck: false,
    strikeReason: null,
    note: null,
  };
  book.nextId += 1;
  book.trials.push(trial);
  return trial;
}

/** Enters what the samples now say of a trial; the operator's marks stay. */
export function reviseTrial(book: TrialBook, id: number, change: Partial<Trial>): Trial {
  const index = book.trials.findIndex((trial) => trial.id === id);
  const previous = book.trials[index];
  if (previous === undefined) throw new Error(`trial ${id} is not in the book`);
  const revised = { ...previous, ...change, revision: previous.revision + 1 };
  book.trials[index] = revised;
  return revised;
}

/**
 * Applies an operator's action to the trial it addresses.
 * @returns the new revision, or null when no trial lies at that time (an orphan)
 */
export function applyAction(book: TrialBook, action: Action): Trial | null {
  const trial = book.trials.find(
    ({ recordingId, start_s, end_s }) =>
      recordingId === action.recordingId && start_s <= action.time_s && action.time_s <= end_s,
  );
  if (trial === undefined) return null;
  switch (action.kind) {
    case 'strike':
      return reviseTrial(book, trial.id, { struck: true, strikeReason: action.reason || null });
    case 'restore':
      return reviseTrial(book, trial.id, { struck: false, strikeReason: null });
    case 'note':
      return reviseTrial(book, trial.id, { note: action.text || null });
    case 'move':
      return reviseTrial(book, trial.id, { runId: action.runId });
  }
}

/** The time by which an action on this trial addresses it: the middle of its interval. */
export function addressOf(trial: Pick<Trial, 'recordingId' | 'start_s' | 'end_s'>): {
  recordingId: number;
  time_s: number;
} {
  return { recordingId: trial.recordingId, time_s: (trial.start_s + trial.end_s) / 2 };
}
