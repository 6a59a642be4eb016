/** Where the session's trials stand by what the plan had set for them. */
import type { Plan } from '../plan/plan.ts';
import type { ShownTrial } from '../trial.ts';
import type { ExperimentView, RunView } from '../view.ts';

/** Where a setting stands on the answer plot: across by one factor's level, told apart by the rest. */
export interface Seat {
  /** Index of the level of the factor across. */
  readonly level: number;
  /** Index of the combination of the other factors' levels; 0 when there is none. */
  readonly beside: number;
}

/** The factor that the plot stands by: the first; in a series the one that the run varies. */
export function placeAcross(plan: Plan, run: RunView | null): number {
  if (plan.design !== 'series' || run === null) return 0;
  const varied = plan.factors.findIndex(({ baseLevel }, i) => run.levels[i] !== baseLevel);
  return Math.max(varied, 0);
}

/** Where a run stands; null when it is of another part of a series, or its level is in no list. */
export function seatOf(plan: Plan, place: number, run: Pick<RunView, 'levels'>): Seat | null {
  const level = run.levels[place] ?? -1;
  if (plan.factors[place]?.levels[level] === undefined) return null;
  const others = plan.factors.flatMap((factor, i) =>
    i === place ? [] : [{ factor, level: run.levels[i] ?? -1 }],
  );
  if (others.some(({ factor, level: at }) => factor.levels[at] === undefined)) return null;
  if (plan.design === 'series') {
    return others.every(({ factor, level: at }) => at === factor.baseLevel)
      ? { level, beside: 0 }
      : null;
  }
  const beside = others.reduce((sum, { factor, level: at }) => sum * factor.levels.length + at, 0);
  return { level, beside };
}

/** The names of what stands beside one another at each level; one without a name for one factor. */
export function besideNames(plan: Plan, place: number): readonly string[] {
  if (plan.design !== 'factorial') return [''];
  return plan.factors
    .filter((_, i) => i !== place)
    .reduce<readonly string[]>(
      (names, { levels }) =>
        names.flatMap((name) => levels.map(({ label }) => (name === '' ? label : `${name}, ${label}`))),
      [''],
    );
}

/** The run whose trial is being made, or was made last. */
export function runAtWork({ runs, runId }: ExperimentView): RunView | null {
  return runs.find(({ id }) => id === runId) ?? null;
}

export interface SeatedTrial<Trial extends ShownTrial = ShownTrial> {
  readonly trial: Trial;
  /** null: no run has it, or the plan has its level no longer. */
  readonly seat: Seat | null;
}

/** Each trial with its seat; those of another part of a series are left out. */
export function seatedTrials<Trial extends ShownTrial>(
  { plan, runs }: ExperimentView,
  trials: readonly Trial[],
  place: number,
): readonly SeatedTrial<Trial>[] {
  if (plan === null) return [];
  const byId = new Map(runs.map((run) => [run.id, run]));
  return trials.flatMap((trial): SeatedTrial<Trial>[] => {
    const run = trial.runId === null ? undefined : byId.get(trial.runId);
    if (run === undefined) return [{ trial, seat: null }];
    const seat = seatOf(plan, place, run);
    return seat !== null || isTakenOut(plan, place, run) ? [{ trial, seat }] : [];
  });
}

/** Whether the run's setting was in an earlier plan and is not in this one. */
function isTakenOut(plan: Plan, place: number, { levels }: Pick<RunView, 'levels'>): boolean {
  return plan.design === 'series' ? levels[place] === -1 : levels.includes(-1);
}
