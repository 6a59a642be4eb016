/** Trials that no board has read: typed in from meters, or brought in with a table. */
import type { Command } from '../experiment/command.ts';
import { givenTo, noteByHand } from '../experiment/conductor/conductor.ts';
import { runOf, trialsOfRun } from '../experiment/conductor/ledger.ts';
import { rememberMade } from '../experiment/conductor/undo.ts';
import { presentRows, sameTrial } from '../experiment/import/present.ts';
import { keyedObstacle, keyedTrial, type KeyedTrial } from '../experiment/keyed.ts';
import { enterTrial, momentByHand_s } from '../experiment/trial-book.ts';
import type { Trial } from '../experiment/trial.ts';
import type { PipelineState } from './state.ts';

type KeyIn = Extract<Command, { say: 'key-in' }>;
type BringIn = Extract<Command, { say: 'bring-in' }>;

const NOT_HERE =
  'What runs now is no bench of your own, and real readings are never mixed with it. Choose “No board: two meters” first.';

/** What stands against it, in a sentence; null when it can be done. */
export function obstacleByHand(state: PipelineState, command: KeyIn | BringIn): string | null {
  if (state.origin !== 'board') return NOT_HERE;
  return command.say === 'key-in'
    ? keyInObstacle(state, command)
    : importObstacle(state, command);
}

function keyInObstacle({ book, conductor }: PipelineState, command: KeyIn): string | null {
  const { runId } = command;
  if (runId === null) return keyedObstacle(command);
  if (runOf(conductor.ledger, runId) === null) return unknownRun(runId);
  const derived = keyedTrial(command);
  // Sent once more, because the answer was lost on the way.
  const ofRun = trialsOfRun(runId, book.trials);
  const same = ofRun.find((trial) => sameTrial(trial, derived));
  if (same !== undefined) {
    return `The same readings are logged for this run already, as trial ${same.id}.`;
  }
  return keyedObstacle(command);
}

function importObstacle({ book, conductor }: PipelineState, command: BringIn): string | null {
  const wanted = command.rows.flatMap(({ runId }) => runId ?? []);
  const unknown = wanted.find((runId) => runOf(conductor.ledger, runId) === null);
  if (unknown !== undefined) return unknownRun(unknown);
  const present = command.again ? [] : presentRows(command.rows, book.trials);
  const first = present.find((id) => id !== null);
  if (first === undefined) return null;
  return `Some of these rows are here already, for instance as trial ${first}. Look at the preview again.`;
}

function unknownRun(runId: string): string {
  return `The plan has no run "${runId}". It was changed meanwhile: choose the run again.`;
}

/** One trial of what the meters showed. The meters are remembered with the experiment. */
export function keyIn(state: PipelineState, command: KeyIn, at_s: number): Trial {
  const { conductor } = state;
  const { runId, meters, note } = command;
  if (JSON.stringify(meters) !== JSON.stringify(conductor.ledger.meters)) {
    conductor.ledger = { ...conductor.ledger, meters };
  }
  const { runId: given, factors } = givenTo(conductor, runId);
  const where = { origin: 'keyed', runId: given, factors } as const;
  const trial = enter(state, { ...keyedTrial(command), recorded: true }, where, { note }, at_s);
  rememberMade(conductor, 'key-in', [trial]);
  return trial;
}

/** One trial for each row, with the run that was confirmed for it. */
export function importRows(state: PipelineState, { rows }: BringIn, at_s: number): Trial[] {
  const { conductor } = state;
  const trials = rows.map((row) => {
    const { note, struck, strikeReason } = row;
    const given = givenTo(conductor, row.runId);
    const factors = given.runId === null ? row.factors : given.factors;
    const derived: KeyedTrial = {
      ...row.values,
      sampleCount: 0,
      basis: 'imported',
      rotorStill: row.rotorStill,
    };
    const where = { origin: 'imported', runId: given.runId, factors } as const;
    const entered = { ...derived, recorded: row.recorded };
    return enter(state, entered, where, { note, struck, strikeReason }, at_s);
  });
  rememberMade(conductor, 'bring-in', trials);
  return trials;
}

function enter(
  { book, conductor, recordingId }: PipelineState,
  derived: KeyedTrial & { readonly recorded: boolean },
  where: Pick<Trial, 'origin' | 'runId' | 'factors'>,
  marks: Parameters<typeof enterTrial>[3],
  at_s: number,
): Trial {
  const moment_s = momentByHand_s(book, recordingId, at_s);
  const times = { start_s: moment_s, end_s: moment_s, declared_s: moment_s };
  const trial = enterTrial(
    book,
    { ...derived, ...times, state: derived.recorded ? 'final' : 'interrupted' },
    { ...where, recordingId, recorded_s: at_s },
    marks,
  );
  noteByHand(conductor, trial);
  return trial;
}
