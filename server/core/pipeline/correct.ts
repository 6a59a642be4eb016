/** Trials that were read with a wrong calibration. */
import type { Command } from '../experiment/command.ts';
import { rememberCorrections } from '../experiment/conductor/undo.ts';
import { canCorrect, CORRECTABLE, measuredOf } from '../experiment/correction.ts';
import { notNow } from '../experiment/not-now.ts';
import { addressedTrial, correctTrial, type TrialBook } from '../experiment/trial-book.ts';
import type { Trial } from '../experiment/trial.ts';
import type { Obstacle } from '../obstacle.ts';
import type { Reader } from '../reading/reader.ts';
import type { PipelineState } from './state.ts';

type Correct = Extract<Command, { say: 'correct' }>;

/** What stands against it; null when it can be done. */
export function correctObstacle(book: TrialBook, command: Correct): Obstacle | null {
  const { quantity, line } = command;
  const trials = meantBy(book, command);
  if (trials.length === 0) return notNow('no-trial-there');
  const without = trials.find((trial) => !canCorrect(measuredOf(trial), quantity, line));
  if (without === undefined) return null;
  return notNow('nothing-to-correct', String(without.id), SAID[quantity]);
}

const SAID = { voltage_V: 'voltage', current_A: 'current', windSpeed_mps: 'wind' } as const;

/** @returns the trials as they are now */
export function putRight({ book, conductor }: PipelineState, command: Correct): Trial[] {
  const { quantity, line } = command;
  const trials = meantBy(book, command);
  rememberCorrections(conductor, trials);
  return trials.map((trial) =>
    correctTrial(book, trial, { ...trial.correction?.by, [quantity]: line }),
  );
}

/** Each once, also where two addresses lie in one trial. */
function meantBy(book: TrialBook, { trials }: Correct): Trial[] {
  const found = trials.flatMap((address) => addressedTrial(book, address) ?? []);
  return [...new Set(found)];
}

/** What is read now goes through: earlier corrections that hold from then on. */
export function correctionsInUse({ configuration }: Pick<Reader, 'configuration'>): Pick<Trial, 'readBy'> {
  const readBy: NonNullable<Trial['readBy']> = {};
  for (const quantity of CORRECTABLE) {
    const lines = configuration.calibration[quantity]?.corrections;
    if (lines !== undefined) readBy[quantity] = lines;
  }
  return Object.keys(readBy).length === 0 ? {} : { readBy };
}
