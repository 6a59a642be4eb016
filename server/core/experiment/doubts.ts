/**
 * Trials that a person should look at: far from the others at their level, in another wind, or
 * showing that the rig has drifted. Nothing is struck or corrected by this.
 */
import type { MeasuredValue } from '../metrology/measured-value.ts';
import { meanOf, standardDeviationOf } from '../metrology/type-a/series.ts';
import { studentTQuantile } from '../statistics/student-t.ts';
import { partsOf } from './plan/run-id.ts';
import type { ShownTrial } from './trial.ts';
import type { Doubt } from './view.ts';

/** Chance of pointing at any sound trial of an experiment. */
const FALSE_ALARM = 0.05;
/** Less than this is no reason to stop a class, as a share. */
const WORTH_SAYING = 0.03;
/** A scatter known from fewer degrees of freedom tells nothing. */
const LEAST_FREEDOM = 3;

type Powered = ShownTrial & { readonly power_W: MeasuredValue };

/** @param trials by number */
export function doubtsOf(trials: readonly ShownTrial[]): Doubt[] {
  const planned = trials.filter(
    (trial): trial is Powered =>
      trial.runId !== null && trial.recorded && !trial.struck && trial.power_W !== null,
  );
  const turning = planned.filter(({ rotorStill }) => !rotorStill);
  return [
    ...turning.flatMap((trial) => farFromOthers(trial, turning)),
    ...planned.flatMap((trial, i) => inAnotherWind(trial, planned.slice(0, i))),
    ...turning.flatMap((trial) => drifted(trial, turning)),
  ].sort((a, b) => a.trialId - b.trialId);
}

function levelOf({ factors }: ShownTrial): string {
  return JSON.stringify(Object.entries(factors).sort());
}

function powerOf({ power_W }: Powered): number {
  return power_W.value;
}

/** Relative scatter of trials about the means of their levels, pooled. */
function scatterOf(trials: readonly Powered[]): { deviation: number; freedom: number } {
  const levels = new Map<string, number[]>();
  for (const trial of trials) {
    const level = levelOf(trial);
    levels.set(level, [...(levels.get(level) ?? []), powerOf(trial)]);
  }
  let squares = 0;
  for (const powers of levels.values()) {
    const mean = meanOf(powers);
    for (const power of powers) squares += (power / mean - 1) ** 2;
  }
  const freedom = trials.length - levels.size;
  return { deviation: Math.sqrt(squares / freedom), freedom };
}

/**
 * Externally studentised deviation of a trial from the mean of the others at its level, with the
 * scatter of all trials but this one (R. D. Cook, S. Weisberg, Residuals and Influence in
 * Regression, 1982; from memory), against Student's quantile shared out among all trials
 * (Bonferroni).
 */
function farFromOthers(trial: Powered, trials: readonly Powered[]): Doubt[] {
  const without = trials.filter((one) => one !== trial);
  const others = without.filter((one) => levelOf(one) === levelOf(trial));
  // Of only two, the later one is pointed at: which of them is wrong can't be told.
  const isEarlierOfTwo = others.length === 1 && others[0]!.id > trial.id;
  if (others.length === 0 || isEarlierOfTwo) return [];
  const { deviation, freedom } = scatterOf(without);
  if (freedom < LEAST_FREEDOM) return [];
  const mean = meanOf(others.map(powerOf));
  const share = powerOf(trial) / mean - 1;
  const error = deviation * Math.sqrt(1 + 1 / others.length);
  if (!isFar(share, error, { freedom, looks: trials.length })) return [];
  const message = `Trial ${trial.id} lies ${percent(share)} ${above(share)} the other trials at its level. Was it set right?`;
  return [{ trialId: trial.id, kind: 'far-from-others', message, share }];
}

/** Against the wind of the trials before it, of at least three. */
function inAnotherWind(trial: Powered, before: readonly Powered[]): Doubt[] {
  const winds = before.flatMap(({ windSpeed_mps }) => windSpeed_mps?.value ?? []);
  const wind = trial.windSpeed_mps;
  if (wind === null || winds.length < LEAST_FREEDOM + 1) return [];
  // How well it is known may be all the difference.
  if (wind.standardUncertainty === null) return [];
  const mean = meanOf(winds);
  const scatter = standardDeviationOf(winds) * Math.sqrt(1 + 1 / winds.length);
  const share = wind.value / mean - 1;
  const error = Math.hypot(scatter, wind.standardUncertainty) / mean;
  if (!isFar(share, error, { freedom: winds.length - 1, looks: before.length + 1 })) return [];
  const message = `The wind of trial ${trial.id} was ${percent(share)} ${above(share)} what it was before. Is the fan where it was?`;
  return [{ trialId: trial.id, kind: 'wind-drift', message, share }];
}

/** A reference run against the first one at its level. */
function drifted(trial: Powered, trials: readonly Powered[]): Doubt[] {
  if (!isReference(trial)) return [];
  const first = trials.find((one) => isReference(one) && levelOf(one) === levelOf(trial));
  const { deviation, freedom } = scatterOf(trials.filter((one) => !isReference(one)));
  if (first === undefined || first === trial || freedom < LEAST_FREEDOM) return [];
  const share = powerOf(trial) / powerOf(first) - 1;
  if (!isFar(share, deviation * Math.SQRT2, { freedom, looks: trials.length })) return [];
  const message = `The reference run of trial ${trial.id} gave ${percent(share)} ${share > 0 ? 'more' : 'less'} than the first one. Has something drifted?`;
  return [{ trialId: trial.id, kind: 'reference-drift', message, share }];
}

function isReference({ runId }: ShownTrial): boolean {
  return runId !== null && (partsOf(runId)?.reference ?? 0) > 0;
}

function isFar(
  share: number,
  error: number,
  { freedom, looks }: { freedom: number; looks: number },
): boolean {
  const limit = studentTQuantile(1 - FALSE_ALARM / (2 * looks), freedom);
  return Math.abs(share) > WORTH_SAYING && Math.abs(share) > limit * error;
}

function percent(share: number): string {
  return `${Math.round(Math.abs(share) * 100)} %`;
}

function above(share: number): string {
  return share > 0 ? 'above' : 'below';
}
