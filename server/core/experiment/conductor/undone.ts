/** What an operator did, with what was there before. */
import type { Trial } from '../trial.ts';
import type { Undoable } from '../view.ts';
import type { Ledger } from './ledger.ts';

/** What an operator may do to a trial. */
type Marks = Pick<Trial, 'struck' | 'strikeReason' | 'note' | 'runId' | 'factors'>;

type Done = Omit<Undoable, 'place'>;

export type Undone =
  | { readonly done: Done; readonly ledger: Ledger }
  | { readonly done: Done; readonly marks: Marks }
  /** Trials that were made, by number: to take them back is to strike them. */
  | { readonly done: Done; readonly made: readonly number[] };
