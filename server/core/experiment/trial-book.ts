/**
 * The book of a session's trials: it numbers them, counts their revisions and applies what the
 * operator does. It lives across the recordings of a session; nothing is ever deleted from it.
 */
import type { Address } from './address.ts';
import { correctedBy, measuredOf, type Correction } from './correction.ts';
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

/** Enters a new trial as revision 1, with the marks that it brings. */
export function enterTrial(
  book: TrialBook,
  derived: DerivedTrial,
  where: Pick<Trial, 'recordingId' | 'recorded_s' | 'origin' | 'runId' | 'factors' | 'readBy'>,
  marks: Partial<Pick<Trial, 'note' | 'struck' | 'strikeReason'>> = {},
): Trial {
  const trial: Trial = {
    id: book.nextId,
    revision: 1,
    ...derived,
    ...where,
    simulated: where.origin === 'simulated',
    speed: null,
    powerCoefficient: null,
    struck: false,
    strikeReason: null,
    note: null,
    correction: null,
    ...marks,
  };
  book.nextId += 1;
  book.trials.push(trial);
  return trial;
}

/** Enters what the samples now say of a trial; what the operator did to it stays. */
export function rederiveTrial(
  book: TrialBook,
  id: number,
  derived: DerivedTrial,
  marks: Partial<Pick<Trial, 'struck' | 'strikeReason'>>,
): Trial {
  const by = trialOf(book, id).correction?.by ?? {};
  return reviseTrial(book, id, { ...derived, ...correctedBy(derived, by), ...marks });
}

/** Has these corrections hold, instead of those before; none: as it was measured. */
export function correctTrial(book: TrialBook, trial: Trial, by: Correction['by']): Trial {
  return reviseTrial(book, trial.id, correctedBy(measuredOf(trial), by));
}

/** The newest revision with this changed. */
export function reviseTrial(book: TrialBook, id: number, change: Partial<Trial>): Trial {
  const previous = trialOf(book, id);
  const revised = { ...previous, ...change, revision: previous.revision + 1 };
  book.trials[book.trials.indexOf(previous)] = revised;
  return revised;
}

/** The newest revision of a trial that is in the book. */
export function trialOf({ trials }: TrialBook, id: number): Trial {
  const found = trials.find((trial) => trial.id === id);
  if (found === undefined) throw new Error(`trial ${id} is not in the book`);
  return found;
}

/**
 * The trial that an action addresses; null when none lies at that time (an orphan). Where two do,
 * for a steady stretch may reach back into one that was averaged, the one whose middle is nearest.
 */
export function addressedTrial(
  book: TrialBook,
  { recordingId, time_s, isByHand = false }: Address,
): Trial | null {
  const isMeant = (trial: Trial): boolean =>
    trial.recordingId === recordingId &&
    madeByHand(trial) === isByHand &&
    trial.start_s <= time_s &&
    time_s <= trial.end_s;
  const offMiddle_s = ({ start_s, end_s }: Trial): number => Math.abs((start_s + end_s) / 2 - time_s);
  const [nearest] = book.trials.filter(isMeant).sort((a, b) => offMiddle_s(a) - offMiddle_s(b));
  return nearest ?? null;
}

/**
 * Applies an operator's action to the trial it addresses.
 * @param givenTo what a trial carries that belongs to this run
 * @returns the new revision
 */
export function applyAction(
  book: TrialBook,
  trial: Trial,
  action: Action,
  givenTo: (runId: string | null) => Pick<Trial, 'runId' | 'factors'>,
): Trial {
  switch (action.kind) {
    case 'strike':
      return reviseTrial(book, trial.id, { struck: true, strikeReason: action.reason || null });
    case 'restore':
      return reviseTrial(book, trial.id, { struck: false, strikeReason: null });
    case 'note':
      return reviseTrial(book, trial.id, { note: action.text || null });
    case 'move':
      return reviseTrial(book, trial.id, givenTo(action.runId));
  }
}

/** Keyed in or imported: it has a moment instead of a stretch, which a board's may lie over. */
export function madeByHand({ origin }: Pick<Trial, 'origin'>): boolean {
  return origin === 'keyed' || origin === 'imported';
}

/**
 * The moment of the next trial that is made by hand, s: that of its input, and later than that of
 * the one before, so that a moment addresses one trial only.
 */
export function momentByHand_s({ trials }: TrialBook, recordingId: number, at_s: number): number {
  const last = trials.findLast((one) => one.recordingId === recordingId && madeByHand(one));
  const earliest_s = last === undefined ? at_s : last.end_s + 1e-6;
  return Math.round(Math.max(at_s, earliest_s) * 1e6) / 1e6;
}

/** How an action on this trial addresses it: by the middle of its interval. */
export function addressOf(
  trial: Pick<Trial, 'recordingId' | 'start_s' | 'end_s' | 'origin'>,
): Address {
  const { recordingId, start_s, end_s } = trial;
  const time_s = (start_s + end_s) / 2;
  return { recordingId, time_s, ...(madeByHand(trial) && { isByHand: true }) };
}
