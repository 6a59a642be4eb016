/**
 * What something that an operator does was meant for. Two people may operate at once, and what one
 * of them saw may be over when the button is pressed. The page sends these words of what it shows;
 * the server makes them anew of what is so, and refuses where they differ. Only what matters is in
 * them: that the wind has risen meanwhile is no reason to refuse a strike.
 */
import type { ActionRequest } from '../live-messages.ts';
import type { Command } from './command.ts';
import type { ExperimentView } from './view.ts';

/** What an operator sees, as far as it matters. */
export interface Seen {
  readonly sessionId: string;
  readonly experiment: ExperimentView;
  /** Number of the newest trial; null before there is one. */
  readonly newestTrialId: number | null;
}

export function meantFor(seen: Seen, asked: Command | ActionRequest): string {
  const about = 'say' in asked ? aboutCommand(seen, asked) : [];
  return [seen.sessionId, ...about.map(String)].join(' ');
}

function aboutCommand(seen: Seen, command: Command): readonly (string | number | null)[] {
  const { runs, runId, step, question, undoes } = seen.experiment;
  switch (command.say) {
    case 'undo':
      return [undoes?.what ?? null, undoes?.trialId ?? null, undoes?.place ?? null];
    case 'is-set':
      return [step, runId];
    case 'log-now':
      return [runId, seen.newestTrialId];
    case 'average':
    case 'leave-it':
    case 'fan-is-on': {
      const trialId = question?.kind === 'unassigned' ? question.trialId : null;
      return [question?.kind ?? null, trialId, runId];
    }
    case 'again':
      return [runs.length];
    case 'skip':
    case 'unskip':
    case 'take-up':
      return [runs.find(({ id }) => id === command.runId)?.status ?? null];
    // A run that has its trial by now needs no other one.
    case 'key-in':
      return [runs.find(({ id }) => id === command.runId)?.trialIds.join() ?? null];
    case 'bring-in':
      return [seen.newestTrialId];
    // Said twice they do no harm, and none of them can be meant for something else.
    case 'plan':
    case 'wait':
    case 'go-on':
    case 'cover':
    case 'reveal':
    case 'predict':
    // Their trials are named one by one, and the level by its name.
    case 'correct':
    case 'relabel':
    case 'accept-finding':
    case 'rotor-and-air':
    case 'fit-generator':
    case 'fit-lamp':
      return [];
  }
}
