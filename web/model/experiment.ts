/** The plan as pages need it: what a run sets, by its labels, and how far its repeats have come. */
import { levelWords } from '#core/experiment/plan/factors.ts';
import type { Plan } from '#core/experiment/plan/plan.ts';
import type { ExperimentView, RunView } from '#core/experiment/view.ts';
import type { TrialView } from '#core/live-messages.ts';
import type { Setting } from '../words/catalogue.ts';

export function runById({ runs }: ExperimentView, id: string | null): RunView | null {
  return runs.find((run) => run.id === id) ?? null;
}

/** What a run sets, factor by factor. */
export function settingsOf(plan: Plan, run: Pick<RunView, 'levels'>): readonly Setting[] {
  return plan.factors.flatMap(({ kind, name, levels }, i) => {
    const level = levels[run.levels[i] ?? -1];
    return level === undefined ? [] : [{ kind, name, level }];
  });
}

/** "25°", or with several factors "25°, 80 mm"; also of a level that the plan had before. */
export function labelOf(plan: Plan, run: RunView): string {
  return levelWords(plan, run);
}

/** Bases of trials that somebody wanted logged, though the readings had not settled. */
const BY_HAND: readonly TrialView['basis'][] = ['average', 'window', 'said'];

/** The trial of the run at work that was just logged so; null where there is none. */
export function loggedByHand(
  { step, runs, runId }: ExperimentView,
  trials: readonly TrialView[],
): TrialView | null {
  const newest = trials.at(-1);
  if (step !== 'logged' || newest === undefined || newest.struck) return null;
  const isOfRun = runs.some(({ id, trialIds }) => id === runId && trialIds.includes(newest.id));
  return isOfRun && BY_HAND.includes(newest.basis) ? newest : null;
}

/** What has to be set anew for a run: where it differs from the one done before; all at first. */
export function changedSettings({ plan, runs }: ExperimentView, run: RunView): readonly Setting[] {
  if (plan === null) return [];
  const settings = settingsOf(plan, run);
  const before = runs.slice(0, runs.indexOf(run)).findLast(({ status }) => status === 'done');
  const changed = settings.filter((_, i) => before?.levels[i] !== run.levels[i]);
  return changed.length === 0 ? settings : changed;
}

export interface Repeats {
  /** Runs of the same levels, those left out apart. */
  readonly runs: readonly RunView[];
  /** Which of them this one is, from 1. */
  readonly at: number;
}

/** The runs that set the same as this one, in their order. */
export function repeatsOf(experiment: ExperimentView, run: RunView): Repeats {
  const alike = experiment.runs.filter(
    ({ levels, group, status }) =>
      status !== 'skipped' &&
      group === run.group &&
      levels.every((level, i) => level === run.levels[i]),
  );
  return { runs: alike, at: alike.indexOf(run) + 1 };
}

/** Runs that are to be done or are: those left out apart. */
export function runsThatCount({ runs }: ExperimentView): readonly RunView[] {
  return runs.filter(({ status }) => status !== 'skipped');
}

export interface PlaceInPlan {
  /** Of the run at work, from 1; 0 where none is, and once all are done. */
  readonly at: number;
  readonly done: number;
  readonly all: number;
}

export function placeInPlan(experiment: ExperimentView): PlaceInPlan {
  const runs = runsThatCount(experiment);
  const { step, runId } = experiment;
  return {
    at: step === 'finished' ? 0 : runs.findIndex(({ id }) => id === runId) + 1,
    done: runs.filter(({ status }) => status === 'done').length,
    all: runs.length,
  };
}
