/** What an operator did, with what was there before. */
import type { Relabel } from '../command.ts';
import type { Correction } from '../correction.ts';
import type { Trial } from '../trial.ts';
import type { Undoable } from '../view.ts';
import type { Ledger } from './ledger.ts';

/** What an operator may do to a trial. */
type Marks = Pick<Trial, 'struck' | 'strikeReason' | 'note' | 'runId' | 'factors'>;

export interface EarlierCorrection {
  readonly trialId: number;
  readonly by: Correction['by'];
}

type Done = Omit<Undoable, 'place'>;

export type Undone =
  | { readonly done: Done; readonly ledger: Ledger }
  | { readonly done: Done; readonly marks: Marks }
  /** What trials were corrected by before. */
  | { readonly done: Done; readonly corrections: readonly EarlierCorrection[] }
  /** What makes the level again what it was. */
  | { readonly done: Done; readonly back: Relabel }
  /** Trials that were made, by number: to take them back is to strike them. */
  | { readonly done: Done; readonly made: readonly number[] };
