/**
 * What the experiment says so far: the comparison of its levels, looked at after every trial, and
 * what to run next.
 */
import { adviseNext, type Advice } from '../choosing/advise-next.ts';
import { compare } from '../comparison/compare.ts';
import type {
  ComparedTrial,
  Comparison,
  LevelKey,
  Optimum,
} from '../comparison/comparison-schema.ts';
import { parabolaThrough, type CurvePoint } from '../comparison/curve.ts';
import type { Factor, Plan } from '../plan/plan.ts';
import type { ShownTrial } from '../trial.ts';
import type { ExperimentView, RunView } from '../view.ts';
import { matchedLoad, type MatchedLoad } from './matched-load.ts';
import { isSameOrder } from './same-order.ts';
import { besideNames, placeAcross, runAtWork, seatedTrials, seatOf, type Seat } from './seats.ts';
import { triedSettings, type TriedSetting } from './settings.ts';

export interface Answer {
  /** The one that varies: the first, or in a series the one at work. */
  readonly factor: Factor;
  /** What is compared: each setting that was tried, in its order, with its level. */
  readonly settings: readonly LevelledSetting[];
  readonly comparison: Comparison;
  /** What to run next; null while the plan still has runs and says that itself. */
  readonly advice: Advice | null;
  /**
   * The levels came in the same order each time: what creeps is mixed up with them. While the runs
   * of a random order are still to come, that they did so far says nothing.
   */
  readonly isSameOrder: boolean;
  /** What power at the same settings did meanwhile, by the newest look that tells; null: none does. */
  readonly crept: Crept | null;
  /** A run of each advised level, to be done again: in the advised order, some twice. */
  readonly advisedRunIds: readonly string[];
  /**
   * Where between numeric levels the most lies, and the curve that tells; null until the runs are
   * done or a level is best: their limits hold for one look, not for one after every trial.
   */
  readonly optimum: Optimum | null;
  readonly curve: readonly CurvePoint[] | null;
  /** At how many ohms the most lies; null where the load is not what varies, or not alone. */
  readonly load: MatchedLoad | null;
  /** What people call a level of the comparison. */
  labelOf(level: LevelKey): string;
}

export interface Crept {
  /** Of the power at the beginning; falling is negative. */
  readonly share: number;
  /** Levels are compared within rounds, which takes out what creeps from one to the next. */
  readonly isWithinRounds: boolean;
}

export interface LevelledSetting extends TriedSetting {
  readonly level: LevelKey;
}

/**
 * null where there is no plan.
 * @param trials in the order in which they were made
 * @param at place of the factor that varies; that of the run at work unless it is said
 */
export function answerOf(
  experiment: ExperimentView,
  trials: readonly ShownTrial[],
  at?: number,
): Answer | null {
  const { plan, runs } = experiment;
  const place = at ?? (plan === null ? 0 : placeAcross(plan, runAtWork(experiment)));
  const factor = plan?.factors[place];
  if (plan === null || factor === undefined) return null;
  const keys = seatKeys(plan, place);
  const keyAt = ({ level, beside }: Seat): LevelKey => keys[beside]?.[level]?.key ?? '';
  const settings = triedSettings(seatedTrials(experiment, trials, place)).map((setting) => {
    return { ...setting, level: keyAt(setting.seat) };
  });
  const compared = settings.map(comparedOf);
  const comparison = compare({
    factor: factor.key,
    response: 'power_W',
    looks: 'often',
    trials: compared,
  });
  const labels = new Map(keys.flat().map(({ key, label }) => [key, label]));
  const advice = isUnderWay(runs) ? null : adviceOf(compared, [...labels.keys()]);
  const runIds = new Map(
    runs.flatMap((run) => {
      const seat = seatOf(plan, place, run);
      return seat === null || run.repeat > 1 ? [] : [[keyAt(seat), run.id] as const];
    }),
  );
  const isReady = advice !== null || comparison.best.reason === 'clear';
  const load = matchedLoad(factor, settings);
  // Of a load the law is known: it says more than a parabola, and where there is no parabola.
  const law = load?.kind === 'known' && load.curve !== null ? load : null;
  return {
    factor,
    settings,
    comparison,
    optimum: isReady ? (law?.optimum ?? comparison.optimum) : null,
    curve: isReady ? (law?.curve ?? parabolaThrough(compared)) : null,
    load,
    advice,
    isSameOrder: (plan.order === 'listed' || !isUnderWay(runs)) && isSameOrder(settings),
    crept: creptOf(experiment, settings),
    advisedRunIds: (advice?.set ?? []).flatMap(({ level }) => runIds.get(level) ?? []),
    labelOf: (level) => labels.get(level) ?? String(level),
  };
}

function creptOf({ doubts }: ExperimentView, settings: readonly LevelledSetting[]): Crept | null {
  const newest = doubts.findLast(({ kind }) => kind === 'power-drift');
  if (newest === undefined) return null;
  const rounds = new Set(settings.map(({ block }) => block));
  return { share: newest.share, isWithinRounds: rounds.size > 1 };
}

interface SeatKey {
  readonly key: LevelKey;
  readonly label: string;
}

/** For each combination of the other factors and each level: what it is compared and called by. */
function seatKeys(plan: Plan, place: number): SeatKey[][] {
  const levels = plan.factors[place]?.levels ?? [];
  return besideNames(plan, place).map((beside) =>
    levels.map(({ label, value }) => {
      if (beside === '') return { key: value ?? label, label };
      const both = `${label}, ${beside}`;
      return { key: both, label: both };
    }),
  );
}

/** As it goes into the comparison. */
export function comparedOf({ trials, power_W, block, level }: LevelledSetting): ComparedTrial {
  const [first] = trials;
  const u = trials.length === 1 ? (first?.power_W.standardUncertainty ?? 0) : 0;
  return {
    level,
    response: power_W ?? 0,
    didNotTurn: power_W === null,
    block,
    order: first?.id ?? null,
    second: null,
    standardUncertainty: u > 0 ? u : null,
  };
}

function isUnderWay(runs: readonly RunView[]): boolean {
  return runs.some(({ status }) => status === 'now' || status === 'open');
}

function adviceOf(compared: readonly ComparedTrial[], levels: readonly LevelKey[]): Advice {
  const trials = compared.map(({ level, response, block, standardUncertainty }) => {
    return { level, value: response, block, standardUncertainty };
  });
  return adviseNext({ trials, levels, left: [] });
}
