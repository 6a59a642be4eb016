/**
 * Why the levels of an experiment give what they give: measured beside what a model of this rig
 * expects, what may have been otherwise where they differ, and what the model says of the reasons.
 */
import type { MeasuredValue } from '../../metrology/measured-value.ts';
import { bestLevel } from '../../rotor/best-level.ts';
import { bladeMeeting } from '../../rotor/blade-meeting.ts';
import { usualDraws, type RigUncertainty } from '../../rotor/doubt.ts';
import type { Explanation } from '../../rotor/expected/compared-level.ts';
import { comparePredicted, type MeasuredLevel } from '../../rotor/expected/expectation.ts';
import { airTorque_Nm, setBlades } from '../../rotor/operating-point.ts';
import { predictSetting, type PredictedSetting } from '../../rotor/predict-setting.ts';
import { widestChord_m } from '../../rotor/rotor.ts';
import { answerOf, type Answer } from '../answer/answer.ts';
import type { LevelKey } from '../comparison/comparison-schema.ts';
import { besideNames, seatOf, type Seat } from '../answer/seats.ts';
import { speedToTell } from '../budget/answer.ts';
import { saidOrHeard } from '../budget/known-air.ts';
import { settingOf } from '../plan/factors.ts';
import type { Factor, Plan } from '../plan/plan.ts';
import { settingsOf } from '../plan/runs.ts';
import type { ShownTrial } from '../trial.ts';
import type { ExperimentView } from '../view.ts';
import { ASSUMED, describedRig, type Assumed, type DescribedRig, type FittedPart } from './described-rig.ts';
import { findingsOf, type Finding } from './findings.ts';
import { LENGTH, LOAD, whatIf } from './what-if.ts';
import type { MeasuredPower, WhyBest, WhyLevel } from './why-level.ts';

/** Why nothing can be said. */
export const NO_WHY = [
  'no plan',
  'rotor not described',
  /** A factor that the model knows nothing of. */
  'factor of your own',
  /** Levels that are names only. */
  'levels without numbers',
  /** The fan is varied, and no trial has read the wind. */
  'no wind reading',
  /** Hub, blades or a level leave no rotor that the model holds for. */
  'no such rotor',
] as const;

export interface KnownWhy {
  readonly kind: 'known';
  readonly factor: Factor;
  readonly levels: readonly WhyLevel[];
  readonly best: WhyBest;
  /** The most probable first; empty where nothing is far off. */
  readonly explanations: readonly Explanation[];
  readonly assumed: readonly Assumed[];
  /** Of the rig, to readings of it. */
  readonly fitted: readonly FittedPart[];
  readonly findings: readonly Finding[];
  /** Null where nothing tells how fast the rotor turned. */
  readonly tips: Tips | null;
}

/** How fast the tips ran, over the wind, at the level that gave the most. */
export interface Tips {
  /** By place. */
  readonly level: number;
  /** By the newest trial that tells it. */
  readonly measured: MeasuredValue;
  readonly model: number;
}

export type Why = KnownWhy | { readonly kind: 'none'; readonly why: (typeof NO_WHY)[number] };

/** One for each factor of a series, else one. @param trials by number */
export function whysOf(experiment: ExperimentView, trials: readonly ShownTrial[]): Why[] {
  const { plan } = experiment;
  if (plan === null) return [none('no plan')];
  const places = plan.design === 'series' ? plan.factors.map((_, place) => place) : [0];
  return places.map((place) => whyOf(experiment, plan, trials, place));
}

function none(why: (typeof NO_WHY)[number]): Why {
  return { kind: 'none', why };
}

function whyOf(
  experiment: ExperimentView,
  plan: Plan,
  trials: readonly ShownTrial[],
  place: number,
): Why {
  const factor = plan.factors[place];
  const answer = answerOf(experiment, trials, place);
  if (factor === undefined || answer === null) return none('no plan');
  if (plan.factors.some(({ kind }) => kind === 'own')) return none('factor of your own');
  if (experiment.rotorAndAir === null) return none('rotor not described');
  const seats = seatsOf(plan, place);
  const described = seats.map((seat) => describedAt({ experiment, plan, answer, seat }));
  const rigs = described.filter((one) => one !== null);
  if (rigs.length < seats.length) return none(reasonOf(experiment, plan));
  if (factor.kind === 'fan' && rigs.some(({ assumed }) => assumed.includes('wind'))) {
    return none('no wind reading');
  }
  return rigs.every(isRotor) ? explained({ experiment, plan, place, answer, factor, seats, rigs }) : none('no such rotor');
}

function reasonOf({ rotorAndAir }: ExperimentView, { factors }: Plan): (typeof NO_WHY)[number] {
  const isLengthVaried = factors.some(({ key }) => key === 'length_m');
  const isRadiusMissing = rotorAndAir?.radius_m === null && !isLengthVaried;
  return isRadiusMissing ? 'rotor not described' : 'levels without numbers';
}

interface PlacedSeat extends Seat {
  /** Of each factor of the plan. */
  readonly levels: readonly number[];
}

/** Every seat of the plan's settings once, as the plan lists them. */
function seatsOf(plan: Plan, place: number): PlacedSeat[] {
  const seats = settingsOf(plan).flatMap((levels) => {
    const seat = seatOf(plan, place, { levels });
    return seat === null ? [] : [{ ...seat, levels }];
  });
  return seats.sort((a, b) => a.beside - b.beside || a.level - b.level);
}

interface Where {
  readonly experiment: ExperimentView;
  readonly plan: Plan;
  readonly answer: Answer;
  readonly seat: PlacedSeat;
}

/** Where the fan is what is varied, each level has a wind of its own. */
function describedAt({ experiment, plan, answer, seat }: Where): DescribedRig | null {
  const { rotorAndAir, fits, airs } = experiment;
  if (rotorAndAir === null) return null;
  const isOwn = plan.factors.some(({ kind }) => kind === 'fan' || kind === 'load');
  const trials = answer.settings
    .filter((setting) => !isOwn || isSame(setting.seat, seat))
    .flatMap((setting) => setting.trials);
  const newest = trials.at(-1);
  const said = newest === undefined ? rotorAndAir : saidOrHeard(rotorAndAir, newest, airs);
  return describedRig({ said, fits, setting: settingOf(plan, seat.levels), trials });
}

function isSame(a: Seat, b: Seat): boolean {
  return a.level === b.level && a.beside === b.beside;
}

/** Also that no level of the plan is one that no rig can have. */
function isRotor({ rig: { rotor, load }, angle_deg }: DescribedRig): boolean {
  const { radius_m, hubRadius_m, chord_m, blades } = rotor;
  const isLoad = load.kind === 'lamp' || load.resistance_Ohm > 0;
  const isSet = angle_deg >= 0 && angle_deg <= 90 && Number.isInteger(blades) && blades > 0;
  return isLoad && isSet && hubRadius_m < 0.95 * radius_m && chord_m <= widestChord_m(rotor);
}

interface Parts {
  readonly experiment: ExperimentView;
  readonly plan: Plan;
  readonly place: number;
  readonly answer: Answer;
  readonly factor: Factor;
  readonly seats: readonly PlacedSeat[];
  /** Of each seat. */
  readonly rigs: readonly DescribedRig[];
}

function explained(parts: Parts): Why {
  const { plan, place, answer, factor, seats, rigs } = parts;
  const draws = usualDraws();
  const expected = rigs.map((one) => predictSetting(one, { uncertainty: one.uncertainty, draws }));
  const measured = seats.map((seat) => measuredAt(answer, seat));
  const { uncertainty, rig } = widest(rigs);
  const tried = seats.flatMap((_, i) => (measured[i] === null ? [] : [i]));
  const comparison = comparePredicted(
    { rig, uncertainty, draws, measured: tried.map((i) => asMeasured(rigs[i]!, measured[i]!)) },
    tried.map((i) => expected[i]!),
  );
  const names = besideNames(plan, place);
  const levels = seats.map(({ level, beside }, i): WhyLevel => {
    const { rig, angle_deg } = rigs[i]!;
    const { label, value } = factor.levels[level]!;
    const point = expected[i]!.point;
    const set = setBlades(rig, angle_deg);
    return {
      label: names[beside] ? `${label}, ${names[beside]}` : label,
      seat: { level, beside },
      value,
      rig,
      angle_deg,
      measured: measured[i]!,
      point,
      standingTorque_Nm: airTorque_Nm(set, 0),
      meeting: point.starts ? bladeMeeting(set, point.tipSpeedRatio) : null,
      isFar: comparison.levels[tried.indexOf(i)]?.isFar ?? false,
    };
  });
  const best = bestOf(answer, seats, levels, expected);
  const doubt = { uncertainty, draws };
  const close = best.model.level === null ? null : levels[best.model.level]!;
  const isVaried = (key: string): boolean => plan.factors.some((one) => one.key === key);
  const findings = findingsOf({
    kind: factor.kind,
    levels,
    best,
    load: close && !isVaried('load_Ohm') ? whatIf(close, LOAD, doubt) : null,
    length: close && !isVaried('length_m') ? whatIf(close, LENGTH, doubt) : null,
  });
  const { explanations } = comparison;
  const assumed = ASSUMED.filter((name) => rigs.some((one) => one.assumed.includes(name)));
  const { fitted } = rigs[0]!;
  const tips = tipsOf(parts, best, levels);
  return { kind: 'known', factor, levels, best, explanations, assumed, fitted, findings, tips };
}

function tipsOf(
  { experiment, answer, seats }: Parts,
  { measured: level }: WhyBest,
  levels: readonly WhyLevel[],
): Tips | null {
  const seat = level === null ? undefined : seats[level];
  if (level === null || seat === undefined) return null;
  const { settings } = answer;
  const measured = settings
    .filter((setting) => isSame(setting.seat, seat))
    .flatMap(({ trials }) => trials.map((trial) => speedToTell(trial, experiment)))
    .flatMap((speed) => speed?.tipSpeedRatio ?? [])
    .at(-1);
  return measured === undefined
    ? null
    : { level, measured, model: levels[level]!.point.tipSpeedRatio };
}

/** What is known least of any level holds for the causes of all. */
function widest(rigs: readonly DescribedRig[]): DescribedRig {
  const width = ({ windSpeed, load }: RigUncertainty): number => windSpeed + load;
  return rigs.reduce((a, b) => (width(b.uncertainty) > width(a.uncertainty) ? b : a));
}

/** Standard uncertainty of a mean whose scatter nobody knows, as a share (common practice). */
const UNKNOWN_SCATTER = 0.1;

function asMeasured({ rig, angle_deg }: DescribedRig, measured: MeasuredPower): MeasuredLevel {
  const { mean_W, low_W, high_W } = measured;
  const isKnown = low_W !== null && high_W !== null;
  const standardUncertainty_W = isKnown ? (high_W - low_W) / 4 : UNKNOWN_SCATTER * mean_W;
  return { rig, angle_deg, loadPower_W: Math.max(mean_W, 0), standardUncertainty_W };
}

function measuredAt({ settings, comparison }: Answer, seat: Seat): MeasuredPower | null {
  const key = settings.find((setting) => isSame(setting.seat, seat))?.level;
  const summary = comparison.levels.find(({ level }) => level === key);
  if (summary === undefined || summary.count + summary.didNotTurn === 0) return null;
  const { mean, low, high, count, didNotTurn } = summary;
  return { mean_W: mean ?? 0, low_W: low, high_W: high, count, didNotTurn };
}

function bestOf(
  { settings, comparison: { best } }: Answer,
  seats: readonly PlacedSeat[],
  levels: readonly WhyLevel[],
  expected: readonly PredictedSetting[],
): WhyBest {
  const placesOf = (key: LevelKey | null): number[] => {
    const seat = settings.find(({ level }) => level === key)?.seat;
    return seat === undefined ? [] : [seats.findIndex((one) => isSame(one, seat))];
  };
  const words = { one: 'level', many: 'levels', written: (i: number) => levels[i]!.label };
  return {
    measured: placesOf(best.level)[0] ?? null,
    tiedWith: best.tiedWith.flatMap(placesOf),
    model: bestLevel(words, expected.map((one, level) => ({ level, ...one }))),
  };
}
