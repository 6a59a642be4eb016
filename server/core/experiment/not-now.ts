/** Why something said of the experiment can't be done now, by kind, so that a page may say it too. */
import type { Obstacle } from '../obstacle.ts';
import { OBSTACLES } from './plan/remarks.ts';

type Sentence = (...about: string[]) => string;

export const NOT_NOW = {
  'logged-already': (trial) => `This stretch is logged already, as trial ${trial}.`,
  'too-little': () => 'Too little has been read since the last change or trial: wait some seconds.',
  turns: () => 'The rotor turns: it is logged by itself.',
  'nothing-to-undo': () => 'There is nothing to take back.',
  'no-run-left': () => 'No run is left to be set up.',
  'run-unknown': (runId) => `The plan has no run "${runId}".`,
  'run-gone': (runId) =>
    `The plan has no run "${runId}". It was changed meanwhile: choose the run again.`,
  'vote-unknown': (level) => `The plan has no level "${level}" to vote for.`,
  'not-here': () =>
    'What runs now is no bench of your own, and real readings are never mixed with it. Choose “No board: two meters” first.',
  'readings-here': (trial) =>
    `The same readings are logged for this run already, as trial ${trial}.`,
  'rows-here': (trial) =>
    `Some of these rows are here already, for instance as trial ${trial}. Look at the preview again.`,
  'no-reading': () => 'There is no reading: key in at least one.',
  'beyond-meter': () => 'A reading is more than its meter shows in this range: check both.',
  'no-trial-there': () => 'No trial lies at any of these times.',
  'nothing-to-correct': (trial, quantity) =>
    `Trial ${trial} has no ${quantity} that could be corrected so. Leave it out.`,
  'no-calibration': () =>
    'Together with the corrections before, that is no calibration. Look at the factor again.',
  'fits-no-generator': () =>
    'These readings tell neither the generator’s constant nor its winding.',
  'fits-no-lamp': () => 'These readings are not those of a lamp at two voltages or more.',
  'level-unknown': (level, factor) => `The plan has no level "${level}" of "${factor}".`,
  'level-measured': (level) =>
    `There are runs at "${level}" already: move the trials to them one by one.`,
  'level-unfit': (level, kind = '', about = '') =>
    `The plan can't have the level "${level}": ${planObstacle(kind, about)}`,
} as const satisfies Readonly<Record<string, Sentence>>;

export type NotNow = keyof typeof NOT_NOW;

export function notNow(kind: NotNow, ...about: string[]): Obstacle {
  const sentence: Sentence = NOT_NOW[kind];
  return { message: sentence(...about), about: [kind, ...about] };
}

function planObstacle(kind: string, about: string): string {
  const sentences: Readonly<Record<string, (about: string) => string>> = OBSTACLES;
  return sentences[kind]?.(about) ?? kind;
}
