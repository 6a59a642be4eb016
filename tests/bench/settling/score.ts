/**
 * Scores the plateaus that a method found in one recording against the true ones.
 *
 * Found and true plateaus are paired greedily, one to one, by intersection over union, best pair
 * first, from 0.5 up. A found plateau without a partner is a fragment when most of it lies in one
 * true plateau, is left out when most of it lies in one where either answer is right, and is
 * false otherwise. What lies mostly where the rotor stood still is scored apart.
 */
import { CONFIRMATION_S, RECORDING_LENGTH_S } from '#core/experiment/trial-life.ts';
import { studentTQuantile } from '#core/statistics/student-t.ts';
import {
  length_s,
  overlap_s,
  type Interval,
  type Recording,
  type TruePlateau,
} from './recording.ts';
import type { Findings, FoundPlateau } from './method.ts';

export interface Match {
  readonly truth: TruePlateau;
  readonly found: FoundPlateau;
  readonly iou: number;
}

/** Counts that add up over recordings. */
export interface Score {
  hours: number;
  sampleCount: number;
  cost_s: number;
  trueCount: number;
  matches: Match[];
  /** Found plateaus without a partner. */
  falseCount: number;
  fragmentCount: number;
  /** Said settled outside every true plateau, those included where either answer is right. */
  withdrawnOutside: number;
  /** Said settled in one, but taken back or closed before anything was logged. */
  withdrawnInside: number;
  declaredCount: number;
  still: StillScore;
  restless: RestlessScore;
}

/** The row of its own for a rotor that stands still. */
export interface StillScore {
  /** With a steady wind that the board measures: true plateaus at zero, and how many were found. */
  trueCount: number;
  foundCount: number;
  /** Found where nothing blew, or with no anemometer to tell: not to be logged. */
  falseCount: number;
}

/** The row of its own for a rotor that never settles. */
export interface RestlessScore {
  /** Stretches that lasted long enough to be told, and in how many it was said. */
  longCount: number;
  toldCount: number;
  /** True plateaus during which it was said. */
  falseCount: number;
}

/** After about thirty seconds it should be told. */
const LONG_RESTLESS_S = 35;
const GRACE_S = 10;
const LEAST_IOU = 0.5;
const MOST = 0.5;

export function emptyScore(): Score {
  return {
    hours: 0,
    sampleCount: 0,
    cost_s: 0,
    trueCount: 0,
    matches: [],
    falseCount: 0,
    fragmentCount: 0,
    withdrawnOutside: 0,
    withdrawnInside: 0,
    declaredCount: 0,
    still: { trueCount: 0, foundCount: 0, falseCount: 0 },
    restless: { longCount: 0, toldCount: 0, falseCount: 0 },
  };
}

export function scoreRecording(
  recording: Recording,
  { plateaus, takenBack, hopeless_s }: Findings,
  cost_s: number,
): Score {
  const inRest = (plateau: Interval) => liesMostlyIn(plateau, recording.still);
  const found = plateaus.filter((plateau) => !inRest(plateau));
  const sure = recording.plateaus.filter((plateau) => !plateau.eitherWay);
  const unsure = recording.plateaus.filter((plateau) => plateau.eitherWay);
  const matches = matchPlateaus(sure, found);
  const partners = new Set(matches.map((match) => match.found));
  const leftOut = (plateau: FoundPlateau) =>
    !partners.has(plateau) && (liesMostlyIn(plateau, unsure) || wouldMatch(plateau, unsure));
  const counted = found.filter((plateau) => !leftOut(plateau));
  const unmatched = counted.filter((plateau) => !partners.has(plateau));
  const fragments = unmatched.filter((plateau) => liesMostlyIn(plateau, sure));
  const promises = [
    ...counted,
    ...takenBack.filter((plateau) => !inRest(plateau) && !leftOut(plateau)),
  ];
  const outside = promises.filter((plateau) => !touches(plateau, recording.plateaus));
  const broken = promises.filter(
    (plateau) =>
      touches(plateau, recording.plateaus) && (takenBack.includes(plateau) || isBrief(plateau)),
  );
  return {
    hours: recording.duration_s / 3600,
    sampleCount: recording.samples.length,
    cost_s,
    trueCount: sure.length,
    matches,
    falseCount: unmatched.length - fragments.length,
    fragmentCount: fragments.length,
    withdrawnOutside: outside.length,
    withdrawnInside: broken.length,
    declaredCount: promises.length,
    still: scoreStill(recording, plateaus.filter(inRest)),
    restless: scoreRestless(recording, hopeless_s),
  };
}

/**
 * Never lasted the recording length, neither live (there it must have stood for a second after
 * it was declared) nor looking back: nothing was logged.
 */
function isBrief(plateau: FoundPlateau): boolean {
  const { start_s, declared_s, closed_s } = plateau;
  const live = closed_s - start_s >= RECORDING_LENGTH_S && closed_s - declared_s >= CONFIRMATION_S;
  return !live && length_s(plateau) < RECORDING_LENGTH_S;
}

/** Pairs greedily, best intersection over union first. */
export function matchPlateaus(
  truths: readonly TruePlateau[],
  found: readonly FoundPlateau[],
): Match[] {
  const pairs = truths
    .flatMap((truth) =>
      found.map((plateau) => ({ truth, found: plateau, iou: iou(truth, plateau) })),
    )
    .filter((pair) => pair.iou >= LEAST_IOU)
    .sort((a, b) => b.iou - a.iou);
  const taken = new Set<Interval>();
  return pairs.filter((pair) => {
    if (taken.has(pair.truth) || taken.has(pair.found)) return false;
    taken.add(pair.truth).add(pair.found);
    return true;
  });
}

/** Intersection over union of two intervals. */
export function iou(a: Interval, b: Interval): number {
  const both = overlap_s(a, b);
  const either = length_s(a) + length_s(b) - both;
  return either > 0 ? both / either : 0;
}

function scoreStill(recording: Recording, resting: readonly FoundPlateau[]): StillScore {
  const inWind = matchPlateaus(
    recording.stillInWind.map((rest) => ({ ...rest, voltage_V: 0, eitherWay: false })),
    resting,
  );
  const calm = recording.still.filter(
    (rest) => !recording.stillInWind.some((other) => other.start_s === rest.start_s),
  );
  return {
    trueCount: recording.stillInWind.length,
    foundCount: inWind.length,
    falseCount: resting.filter((plateau) => liesMostlyIn(plateau, calm)).length,
  };
}

function scoreRestless(recording: Recording, hopeless_s: readonly number[]): RestlessScore {
  const saidIn = ({ start_s, end_s }: Interval) =>
    hopeless_s.some((time_s) => time_s > start_s && time_s <= end_s);
  const long = recording.restless.filter((stretch) => length_s(stretch) >= LONG_RESTLESS_S);
  // What was said before a plateau may stand for a moment; after its first seconds it is wrong.
  const settled = recording.plateaus
    .filter((plateau) => length_s(plateau) > 2 * GRACE_S)
    .map(({ start_s, end_s }) => ({ start_s: start_s + GRACE_S, end_s }));
  return {
    longCount: long.length,
    toldCount: long.filter(saidIn).length,
    falseCount: settled.filter(saidIn).length,
  };
}

function liesMostlyIn(plateau: Interval, places: readonly Interval[]): boolean {
  return places.some((place) => overlap_s(plateau, place) > MOST * length_s(plateau));
}

/** Pairs with an unsure plateau as it would with a sure one. */
function wouldMatch(plateau: Interval, places: readonly Interval[]): boolean {
  return places.some((place) => iou(plateau, place) >= LEAST_IOU);
}

function touches(plateau: Interval, places: readonly Interval[]): boolean {
  return places.some((place) => overlap_s(plateau, place) > 0);
}

export function addScore(total: Score, score: Score): void {
  total.hours += score.hours;
  total.sampleCount += score.sampleCount;
  total.cost_s += score.cost_s;
  total.trueCount += score.trueCount;
  total.matches.push(...score.matches);
  total.falseCount += score.falseCount;
  total.fragmentCount += score.fragmentCount;
  total.withdrawnOutside += score.withdrawnOutside;
  total.withdrawnInside += score.withdrawnInside;
  total.declaredCount += score.declaredCount;
  total.still.trueCount += score.still.trueCount;
  total.still.foundCount += score.still.foundCount;
  total.still.falseCount += score.still.falseCount;
  total.restless.longCount += score.restless.longCount;
  total.restless.toldCount += score.restless.toldCount;
  total.restless.falseCount += score.restless.falseCount;
}

/** The figures of the table. Shares are of one; NaN where there is nothing to divide by. */
export interface Figures {
  readonly trueCount: number;
  readonly precision: number;
  readonly recall: number;
  readonly f1: number;
  /** Share of the true plateaus found with an intersection over union of 0.8 and more. */
  readonly recallAt80: number;
  readonly falsePerHour: number;
  readonly fragmentsPerHour: number;
  readonly latencyMedian_s: number;
  readonly latency90_s: number;
  /** Relative to the true mean: signed mean and median size. */
  readonly bias: number;
  readonly errorMedian: number;
  readonly coverage: number;
  /** What all intervals would have to be multiplied by to cover 95 % of the true means. */
  readonly stretchTo95: number;
  /** Full width of the 95 % interval and standard uncertainty, relative to the true mean. */
  readonly widthMedian: number;
  readonly uncertaintyMedian: number;
  /** Share of the declared that were taken back: outside any true plateau, or closed too soon. */
  readonly withdrawn: number;
  readonly withdrawnOutside: number;
  readonly costPerSample_us: number;
  readonly still: StillScore;
  readonly restless: RestlessScore;
}

export function figuresOf(score: Score): Figures {
  const { matches, trueCount, falseCount, fragmentCount, hours } = score;
  const found = matches.length;
  const precision = found / (found + falseCount + fragmentCount);
  const recall = found / trueCount;
  const latencies = matches.map((match) => match.found.declared_s - match.truth.start_s);
  const errors = matches.map((match) => error_V(match) / match.truth.voltage_V);
  const widths = matches.map((match) => (2 * halfWidth_V(match.found)) / match.truth.voltage_V);
  const within = matches.filter(covers).length;
  return {
    trueCount,
    precision,
    recall,
    f1: found > 0 ? (2 * precision * recall) / (precision + recall) : 0 * recall,
    recallAt80: matches.filter((match) => match.iou >= 0.8).length / trueCount,
    falsePerHour: falseCount / hours,
    fragmentsPerHour: fragmentCount / hours,
    latencyMedian_s: quantile(latencies, 0.5),
    latency90_s: quantile(latencies, 0.9),
    bias: errors.reduce((sum, error) => sum + error, 0) / found,
    errorMedian: quantile(errors.map(Math.abs), 0.5),
    coverage: within / found,
    stretchTo95: quantile(
      matches.map((match) => Math.abs(error_V(match)) / halfWidth_V(match.found)),
      0.95,
    ),
    widthMedian: quantile(widths, 0.5),
    uncertaintyMedian: quantile(
      matches.map((match) => match.found.standardUncertainty_V / match.truth.voltage_V),
      0.5,
    ),
    withdrawn: (score.withdrawnOutside + score.withdrawnInside) / score.declaredCount,
    withdrawnOutside: score.withdrawnOutside / score.declaredCount,
    costPerSample_us: (score.cost_s / score.sampleCount) * 1e6,
    still: score.still,
    restless: score.restless,
  };
}

function error_V({ found, truth }: Match): number {
  return found.voltage_V - truth.voltage_V;
}

function halfWidth_V(found: FoundPlateau): number {
  return studentTQuantile(0.975, found.degreesOfFreedom) * found.standardUncertainty_V;
}

/** Whether the 95 % interval of the mean holds the true mean. */
export function covers(match: Match): boolean {
  return Math.abs(error_V(match)) <= halfWidth_V(match.found);
}

/** Quantile of type 7 (Hyndman and Fan, The American Statistician 50(4), 1996). Empty: NaN. */
export function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  const position = (sorted.length - 1) * share;
  const below = sorted[Math.floor(position)] ?? NaN;
  const above = sorted[Math.ceil(position)] ?? NaN;
  return below + (above - below) * (position - Math.floor(position));
}
