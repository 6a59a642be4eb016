/** The session's trials by what the plan had set for them, and the mean of each level. */
import { partsOf, runIdOf } from '#core/experiment/plan/run-id.ts';
import type { Plan } from '#core/experiment/plan/plan.ts';
import type { ExperimentView, RunView } from '#core/experiment/view.ts';
import type { TrialView } from '#core/live-messages.ts';
import { meanInterval, type MeanInterval } from '#core/statistics/mean-interval.ts';
import { runById } from './experiment.ts';

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

export interface SeatedTrial {
  readonly trial: TrialView;
  /** null: no run of the plan has it. */
  readonly seat: Seat | null;
}

/** Each trial with its seat; those of another part of a series are left out. */
export function seatedTrials(
  { plan, runs }: ExperimentView,
  trials: readonly TrialView[],
  place: number,
): readonly SeatedTrial[] {
  if (plan === null) return [];
  const byId = new Map(runs.map((run) => [run.id, run]));
  return trials.flatMap((trial): SeatedTrial[] => {
    const run = trial.runId === null ? undefined : byId.get(trial.runId);
    if (run === undefined) return [{ trial, seat: null }];
    const seat = seatOf(plan, place, run);
    return seat === null ? [] : [{ trial, seat }];
  });
}

export interface SeatMean extends Seat {
  readonly power_W: MeanInterval;
  /** The newest of its trials. */
  readonly newest: TrialView;
}

/**
 * The mean power of each seat. What was read several times without setting the blades anew counts
 * once, as its own mean: such readings are alike because nothing was done in between.
 */
export function seatMeans(seated: readonly SeatedTrial[]): readonly SeatMean[] {
  const seats = new Map<string, SeatPowers>();
  for (const { trial, seat } of seated) {
    if (seat === null || trial.power_W === null || !counts(trial)) continue;
    const key = `${seat.level} ${seat.beside}`;
    const known = seats.get(key) ?? { seat, settings: new Map<string, number[]>(), newest: trial };
    const setting = settingKey(trial.runId ?? '');
    known.settings.set(setting, [...(known.settings.get(setting) ?? []), trial.power_W.value]);
    seats.set(key, { ...known, newest: trial });
  }
  return [...seats.values()].map(({ seat, settings, newest }) => {
    const means = [...settings.values()].map((values) => meanInterval(values).mean);
    return { ...seat, power_W: meanInterval(means), newest };
  });
}

interface SeatPowers {
  readonly seat: Seat;
  /** Powers of each setting, W. */
  readonly settings: Map<string, number[]>;
  readonly newest: TrialView;
}

/** Recorded to the full length, not struck, and it turned. */
function counts({ recorded, struck, rotorStill }: TrialView): boolean {
  return recorded && !struck && !rotorStill;
}

/** The same for all readings of one setting. */
function settingKey(runId: string): string {
  const parts = partsOf(runId);
  return parts === null ? runId : runIdOf({ ...parts, repeat: 1 });
}

/** The run whose trial is being made, or was made last. */
export function runAtWork(experiment: ExperimentView): RunView | null {
  return runById(experiment, experiment.runId);
}
