/** What an operator can do by key, button or clicker; one list for all of them. */
import type { TrialView } from '#core/live-messages.ts';
import { toggleKeying } from '../by-hand/keying.ts';
import { runById } from '../model/experiment.ts';
import { hasReadings, hasThreads } from '../model/stage.ts';
import { isPlayed } from '../model/bench.ts';
import { startMove } from './operator.ts';
import { chosenTrial, type Operating } from './page-state.ts';

/** Each is null while there is nothing for it to do. */
export type ActionName =
  | 'log'
  | 'wait'
  | 'next'
  | 'skip'
  | 'strike'
  | 'again'
  | 'note'
  | 'move'
  | 'undo'
  | 'cover'
  | 'key-in'
  | 'bring-in';

/** Steps in which an operator may say that the blades are set. */
const BEFORE_WIND: readonly string[] = ['stop-fan', 'blades-stopping', 'set-blades'];

/** @param trial the one that it is done to, where it is done to one */
export function actionFor(
  page: Operating,
  name: ActionName,
  trial: TrialView | null = chosenTrial(page),
): (() => void) | null {
  const { bench, operator } = page;
  // What is played was recorded long ago.
  if (isPlayed(bench)) return null;
  const experiment = bench.experiment.value;
  switch (name) {
    case 'log':
      return hasThreads(bench.stage.value) ? () => void operator.say({ say: 'log-now' }) : null;
    case 'wait':
      if (!hasReadings(bench.stage.value)) return null;
      return () => void operator.say({ say: experiment.isWaiting ? 'go-on' : 'wait' });
    case 'next':
      // Nobody is asked to say so while anything is seen to turn.
      if (!BEFORE_WIND.includes(experiment.step) || bench.stage.value !== 'waiting') return null;
      return () => void operator.say({ say: 'is-set' });
    case 'skip': {
      const run = runById(experiment, experiment.runId);
      return run?.status === 'now' ? () => void operator.say({ say: 'skip', runId: run.id }) : null;
    }
    case 'strike':
      if (trial === null) return null;
      return trial.struck
        ? () => operator.act({ kind: 'restore', trialId: trial.id })
        : () => (page.editing.value = { trialId: trial.id, kind: 'strike' });
    case 'note':
      if (trial === null) return null;
      return () => (page.editing.value = { trialId: trial.id, kind: 'note' });
    case 'again': {
      const runId = trial?.runId ?? null;
      // A level that was taken out of the plan can't be set again.
      const run = runById(experiment, runId);
      const isKnown = run !== null && !run.levels.includes(-1);
      return runId === null || !isKnown ? null : () => void operator.say({ say: 'again', runId });
    }
    case 'move':
      if (trial === null || experiment.plan === null) return null;
      return () => startMove(operator, experiment, trial.id);
    case 'undo':
      return experiment.undoes === null ? null : () => void operator.say({ say: 'undo' });
    case 'key-in':
      return () => {
        operator.bringingIn.isShown.value = false;
        toggleKeying(operator.keying, experiment);
      };
    case 'bring-in':
      return () => {
        const { isShown } = operator.bringingIn;
        operator.keying.isShown.value = false;
        isShown.value = !isShown.value;
      };
    case 'cover':
      if (experiment.plan === null) return null;
      return () => void operator.say({ say: experiment.isCovered ? 'reveal' : 'cover' });
  }
}
