/** What an operator has in hand: the plan form, the run or trial that is being put right. */
import { signal, type Signal } from '@preact/signals';
import type { ActionRequest } from '#core/live-messages.ts';
import type { Command } from '#core/experiment/command.ts';
import type { ExperimentView } from '#core/experiment/view.ts';
import { createDescribing, type Describing } from '../budget/describing.ts';
import { createFitting, type Fitting } from '../fitting/fitting.ts';
import { createPlanning, type Planning } from '../plan/planning.ts';
import { createBringingIn, type BringingIn } from '../by-hand/bringing-in.ts';
import { createKeying, type Keying } from '../by-hand/keying.ts';
import type { KeyAction } from '../words/bench-words.ts';

/** A run that is chosen on the rail: to do something with it, or to give it a trial. */
export interface Choosing {
  readonly runId: string;
  /** The trial that is to be given to it; null: the run itself is meant. */
  readonly trialId: number | null;
}

export interface Operator {
  readonly planning: Planning;
  readonly keying: Keying;
  readonly bringingIn: BringingIn;
  readonly describing: Describing;
  readonly fitting: Fitting;
  readonly keysShown: Signal<boolean>;
  /** What the next key is to be taught to do. */
  readonly teaching: Signal<KeyAction | null>;
  readonly choosing: Signal<Choosing | null>;
  act(request: ActionRequest): void;
  /** Resolves with whether the program has taken it up; a refusal is shown. */
  say(command: Command): Promise<boolean>;
}

export function createOperator(requests: Pick<Operator, 'act' | 'say'>): Operator {
  return {
    ...requests,
    planning: createPlanning(),
    keying: createKeying(),
    bringingIn: createBringingIn(),
    describing: createDescribing(),
    fitting: createFitting(),
    keysShown: signal(false),
    teaching: signal<KeyAction | null>(null),
    choosing: signal<Choosing | null>(null),
  };
}

/** Begins to give a trial to another run: the one that it has, or the one at work, is offered. */
export function startMove(operator: Operator, experiment: ExperimentView, trialId: number): void {
  const { runs, runId } = experiment;
  const held = runs.find(({ trialIds }) => trialIds.includes(trialId))?.id;
  const first = held ?? runId ?? runs[0]?.id;
  if (first !== undefined) operator.choosing.value = { runId: first, trialId };
}

/** The run some places further along the plan. */
export function chooseAlong(operator: Operator, { runs }: ExperimentView, step: number): void {
  const choosing = operator.choosing.value;
  if (choosing === null || runs.length === 0) return;
  const at = runs.findIndex(({ id }) => id === choosing.runId);
  const next = runs[Math.min(Math.max(at + step, 0), runs.length - 1)];
  if (next !== undefined) operator.choosing.value = { ...choosing, runId: next.id };
}

/** Gives the trial in hand to the chosen run, or (null) to none. */
export function finishMove(operator: Operator, runId: string | null): void {
  const { choosing } = operator;
  const trialId = choosing.value?.trialId ?? null;
  if (trialId === null) return;
  operator.act({ kind: 'move', trialId, runId });
  choosing.value = null;
}
