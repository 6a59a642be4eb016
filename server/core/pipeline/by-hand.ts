/** Trials that no board has read: typed in from meters, or brought in with a table. */
import type { Command } from '../experiment/command.ts';
import { givenTo, noteByHand } from '../experiment/conductor/conductor.ts';
import { runOf, trialsOfRun } from '../experiment/conductor/ledger.ts';
import { rememberMade } from '../experiment/conductor/undo.ts';
import { presentRows, sameTrial } from '../experiment/import/present.ts';
import { keyedObstacle, keyedTrial, type KeyedTrial } from '../experiment/keyed.ts';
import { notNow } from '../experiment/not-now.ts';
import { enterTrial, momentByHand_s } from '../experiment/trial-book.ts';
import type { Trial } from '../experiment/trial.ts';
import type { Obstacle } from '../obstacle.ts';
import type { PipelineState } from './state.ts';

type KeyIn = Extract<Command, { say: 'key-in' }>;
type BringIn = Extract<Command, { say: 'bring-in' }>;

/** What stands against it; null when it can be done. */
export function obstacleByHand(state: PipelineState, command: KeyIn | BringIn): Obstacle | null {
  if (state.origin !== 'board') return notNow('not-here');
  return command.say === 'key-in'
    ? keyInObstacle(state, command)
    : importObstacle(state, command);
}

function keyInObstacle({ book, conductor }: PipelineState, command: KeyIn): Obstacle | null {
  const { runId } = command;
  if (runId === null) return keyedObstacle(command);
  if (runOf(conductor.ledger, runId) === null) return notNow('run-gone', runId);
  const derived = keyedTrial(command);
  // Sent once more, because the answer was lost on the way.
  const ofRun = trialsOfRun(runId, book.trials);
  const same = ofRun.find((trial) => sameTrial(trial, derived));
  if (same !== undefined) return notNow('readings-here', String(same.id));
  return keyedObstacle(command);
}

function importObstacle({ book, conductor }: PipelineState, command: BringIn): Obstacle | null {
  const wanted = command.rows.flatMap(({ runId }) => runId ?? []);
  const unknown = wanted.find((runId) => runOf(conductor.ledger, runId) === null);
  if (unknown !== undefined) return notNow('run-gone', unknown);
  const present = command.again ? [] : presentRows(command.rows, book.trials);
  const first = present.find((id) => id !== null);
  return first === undefined ? null : notNow('rows-here', String(first));
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
      ripple: null,
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
