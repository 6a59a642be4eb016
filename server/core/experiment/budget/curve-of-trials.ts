/** The power curve of trials that one rotor, set alike, made in different winds. */
import {
  powerCurve,
  REFERENCE_DENSITY_kgpm3,
  type CurveBin,
  type CurvePoint,
} from '../../rotor/wind/power-curve.ts';
import type { Coefficient, CoefficientCause } from '../../rotor/wind/power-coefficient.ts';
import { discArea_m2 } from '../../rotor/wind/wind-power.ts';
import type { Trial } from '../trial.ts';
import type { Described } from './answer.ts';
import { budgetOf } from './budget.ts';
import {
  coefficientOfTrial,
  type CoefficientTrial,
  type TrialCoefficient,
} from './coefficient-of-trial.ts';
import { saidOrHeard } from './known-air.ts';
import { rigOf } from './known-instruments.ts';
import type { BudgetedTrial } from './rows.ts';

export type CurveTrial = BudgetedTrial & CoefficientTrial & Pick<Trial, 'recordingId'>;

/** A trial on a power curve. */
export interface TrialOnCurve<One extends CurveTrial = CurveTrial> {
  readonly trial: One;
  /** At the rotor, with its own uncertainty. */
  readonly coefficient: Extract<TrialCoefficient, { kind: 'known' }>;
  readonly point: CurvePoint;
}

/** Trials of which wind, power or rotor are not known are left out. */
export function trialsOnCurve<One extends CurveTrial>(
  trials: readonly One[],
  { instruments, rotorAndAir, airs }: Described,
): TrialOnCurve<One>[] {
  if (rotorAndAir === null) return [];
  return trials.flatMap((trial) => {
    const budget = budgetOf(trial, rigOf(trial, instruments));
    const said = saidOrHeard(rotorAndAir, trial, airs);
    const coefficient = coefficientOfTrial(trial, budget, said);
    if (budget === null || coefficient.kind === 'none') return [];
    const point: CurvePoint = {
      wind_mps: coefficient.wind_mps,
      windUncertainty_mps: Math.hypot(
        uncertaintyOf(coefficient, 'anemometer'),
        uncertaintyOf(coefficient, 'correction of the wind'),
      ),
      power_W: budget.value_W,
      powerUncertainty_W: budget.common_W,
      airDensity_kgpm3: coefficient.airDensity_kgpm3,
      densityUncertainty_kgpm3: uncertaintyOf(coefficient, 'air density'),
    };
    return [{ trial, coefficient, point }];
  });
}

/** At the air density of the standard atmosphere, unless another one is said. */
export function binsOf(
  placed: readonly TrialOnCurve[],
  referenceDensity_kgpm3 = REFERENCE_DENSITY_kgpm3,
): CurveBin[] {
  const radius_m = placed.at(-1)?.coefficient.radius_m ?? NaN;
  const settings = { area_m2: discArea_m2(radius_m), referenceDensity_kgpm3 };
  return powerCurve(placed.map(({ point }) => point), settings);
}

export function curveOfTrials(trials: readonly CurveTrial[], described: Described): CurveBin[] {
  return binsOf(trialsOnCurve(trials, described));
}

/** 0 for what adds nothing. */
function uncertaintyOf({ rows }: Coefficient, cause: CoefficientCause): number {
  return rows.find((row) => row.cause === cause)?.standardUncertainty ?? 0;
}
