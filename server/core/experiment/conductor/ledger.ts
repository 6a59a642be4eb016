/** What has been decided about an experiment: all of it that outlives a recording. */
import { z } from 'zod';
import { NO_FITS } from '../../rotor/fitting/rig-fits.ts';
import { KnownAirSchema } from '../budget/known-air.ts';
import { KnownInstrumentSchema } from '../budget/known-instruments.ts';
import { MetersSchema } from '../keyed.ts';
import type { Run } from '../plan/plan.ts';
import { partsOf, runIdOf } from '../plan/run-id.ts';
import type { Trial } from '../trial.ts';
import { DecidedSchema } from './decided.ts';
import { UndoneSchema } from './undone.ts';

export const LedgerSchema = DecidedSchema.extend({
  accepted: DecidedSchema.shape.accepted.default([]),
  fits: DecidedSchema.shape.fits.default(NO_FITS),
  rotorAndAir: DecidedSchema.shape.rotorAndAir.default(null),
  /** What the session's recordings were measured with. Undo leaves it alone. */
  instruments: z.array(KnownInstrumentSchema).readonly().default([]),
  /** Those that readings were keyed in from last. */
  meters: MetersSchema.nullable().default(null),
  /** What boards have said of the air. Undo leaves it alone. */
  airs: z.array(KnownAirSchema).readonly().default([]),
  /** What can be taken back, newest last. */
  undos: z.array(UndoneSchema).readonly().default([]),
});
/** Never changed in place: whoever keeps one can go back to it. */
export type Ledger = Readonly<z.infer<typeof LedgerSchema>>;

export const EMPTY_LEDGER: Ledger = {
  plan: null,
  runs: [],
  skipped: [],
  wantedId: null,
  isCovered: false,
  predictions: {},
  accepted: [],
  fits: NO_FITS,
  instruments: [],
  meters: null,
  rotorAndAir: null,
  airs: [],
  undos: [],
};

/** What is known of trials here: the book's, or those that are committed. */
export type GivenTrial = Pick<Trial, 'id' | 'runId' | 'recorded' | 'struck'>;

/** The trials that a run has, oldest first: given to it, recorded to the full length, not struck. */
export function trialsOfRun<T extends GivenTrial>(runId: string, trials: readonly T[]): T[] {
  return trials.filter((trial) => trial.runId === runId && trial.recorded && !trial.struck);
}

export function runOf({ runs }: Pick<Ledger, 'runs'>, id: string | null): Run | null {
  return runs.find((run) => run.id === id) ?? null;
}

/** The runs still to be done, the wanted one first. */
export function openRuns(ledger: Ledger, trials: readonly GivenTrial[]): readonly Run[] {
  const done = doneIds(trials);
  const open = ledger.runs.filter(({ id }) => !done.has(id) && !ledger.skipped.includes(id));
  const wanted = open.find(({ id }) => id === ledger.wantedId);
  return wanted === undefined ? open : [wanted, ...open.filter((run) => run !== wanted)];
}

/** The runs that have a trial, in the order in which they were done. */
export function doneRuns(ledger: Ledger, trials: readonly GivenTrial[]): readonly Run[] {
  return [...doneIds(trials)].flatMap((id) => runOf(ledger, id) ?? []);
}

function doneIds(trials: readonly GivenTrial[]): ReadonlySet<string> {
  const counting = trials.filter((trial) => trial.recorded && !trial.struck);
  return new Set(counting.flatMap(({ runId }) => (runId === null ? [] : [runId])));
}

/** The ledger with a run like this one added right behind it; null when there is no such run. */
export function withAgain(ledger: Ledger, runId: string): Ledger | null {
  const at = ledger.runs.findIndex(({ id }) => id === runId);
  const run = ledger.runs[at];
  const parts = partsOf(runId);
  if (run === undefined || parts === null) return null;
  // The blades are set anew for it, whatever the run before it was.
  const idOf = (again: number): string => runIdOf({ ...parts, repeat: 1, again });
  let number = 1;
  while (runOf(ledger, idOf(number)) !== null) number += 1;
  const again: Run = { ...run, id: idOf(number), repeat: 1, isAgain: true };
  return { ...ledger, runs: ledger.runs.toSpliced(at + 1, 0, again), wantedId: again.id };
}
