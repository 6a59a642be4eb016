/**
 * Whether the linear form of a budget is good enough: the model of budget.ts drawn many times over
 * (JCGM 101:2008, 8), with each cause as it is distributed.
 */
import type { Cause } from '../../instrument/causes.ts';
import { drawResult, isGoodEnough, type Drawn } from '../../metrology/draws.ts';
import { between, normal, uniform, type Random } from '../../virtual-rig/random.ts';
import type { Budget, Rig } from './budget.ts';
import { meansOf, type BudgetedTrial, type Means } from './rows.ts';
import { causesOfTrial } from './trial-causes.ts';

/** Enough for the ends of the interval to a fiftieth of the standard uncertainty. */
export const DRAWS = 20_000;

export interface Check {
  /** The interval by draws, W. */
  readonly drawn: Drawn;
  /** Value ± expanded uncertainty agrees with it to the digits that are shown. */
  readonly isLinear: boolean;
}

interface CheckParts {
  readonly budget: Budget;
  readonly random: Random;
  /** Of draws. */
  readonly count?: number;
}

/** Null for a keyed trial, whose meters are in its uncertainty already, and without power. */
export function checkBudget(
  trial: BudgetedTrial,
  { instrument }: Rig,
  { budget, random, count = DRAWS }: CheckParts,
): Check | null {
  if (trial.power_W === null || trial.basis === 'keyed') return null;
  const sign = Math.sign(trial.power_W.value) || 1;
  const means = meansOf(trial);
  const { causes, corrections } = causesOfTrial(trial, instrument);
  const all = [...causes, ...corrections];
  const draw = trial.rotorStill
    ? () => budget.standardUncertainty_W * normal(random) * normal(random)
    : () => sign * drawPower_W(means, all, random);
  const drawn = drawResult(draw, count);
  const { value_W, expandedUncertainty_W } = budget;
  const interval = { low: value_W - expandedUncertainty_W, high: value_W + expandedUncertainty_W };
  return { drawn, isLinear: isGoodEnough(interval, drawn) };
}

function drawPower_W(means: Means, causes: readonly Cause[], random: Random): number {
  const { power, voltage, current } = means;
  let [gainV, gainI, offsetV, offsetI] = [1, 1, 0, 0];
  for (const { distribution, standardUncertainty, voltage: ofV, current: ofI } of causes) {
    const error =
      standardUncertainty *
      (distribution === 'normal' ? normal(random) : between(random, -Math.sqrt(3), Math.sqrt(3)));
    gainV += ofV.gain * error;
    offsetV += ofV.offset * error;
    gainI += ofI.gain * error;
    offsetI += ofI.offset * error;
  }
  const scatterV = voltage.standardUncertainty * normal(random);
  const scatterI = current.standardUncertainty * normal(random);
  const scatter = power.standardUncertainty * studentT(power.degreesOfFreedom, random);
  return (
    (power.value + scatter + scatterV * scatterI) * gainV * gainI +
    offsetI * gainV * (voltage.value + scatterV) +
    offsetV * gainI * (current.value + scatterI) +
    offsetV * offsetI
  );
}

/** Polar method for Student's t (R. W. Bailey, Math. Comput. 62 (1994) 779, from memory). */
function studentT(degreesOfFreedom: number, random: Random): number {
  const radius = (1 - uniform(random)) ** (-2 / degreesOfFreedom) - 1;
  return Math.sqrt(degreesOfFreedom * radius) * Math.cos(2 * Math.PI * uniform(random));
}
