/** The power curve of trials that one rotor, set alike, made in different winds. */
import { powerCurve, type CurveBin, type CurvePoint } from '../../rotor/wind/power-curve.ts';
import type { Coefficient, CoefficientCause } from '../../rotor/wind/power-coefficient.ts';
import { discArea_m2 } from '../../rotor/wind/wind-power.ts';
import type { Trial } from '../trial.ts';
import type { Described } from './answer.ts';
import { budgetOf } from './budget.ts';
import { coefficientOfTrial, type CoefficientTrial } from './coefficient-of-trial.ts';
import { saidOrHeard } from './known-air.ts';
import { rigOf } from './known-instruments.ts';
import type { BudgetedTrial } from './rows.ts';

type CurveTrial = BudgetedTrial & CoefficientTrial & Pick<Trial, 'recordingId'>;

/** Trials of which wind, power or rotor are not known are left out. */
export function curveOfTrials(
  trials: readonly CurveTrial[],
  { instruments, rotorAndAir, airs }: Described,
): CurveBin[] {
  if (rotorAndAir === null) return [];
  const points: CurvePoint[] = [];
  let area_m2 = NaN;
  for (const trial of trials) {
    const budget = budgetOf(trial, rigOf(trial, instruments));
    const said = saidOrHeard(rotorAndAir, trial, airs);
    const found = coefficientOfTrial(trial, budget, said);
    if (budget === null || found.kind === 'none') continue;
    area_m2 = discArea_m2(found.radius_m);
    points.push({
      wind_mps: found.wind_mps,
      windUncertainty_mps: Math.hypot(
        uncertaintyOf(found, 'anemometer'),
        uncertaintyOf(found, 'correction of the wind'),
      ),
      power_W: budget.value_W,
      powerUncertainty_W: budget.common_W,
      airDensity_kgpm3: found.airDensity_kgpm3,
      densityUncertainty_kgpm3: uncertaintyOf(found, 'air density'),
    });
  }
  return powerCurve(points, { area_m2 });
}

/** 0 for what adds nothing. */
function uncertaintyOf({ rows }: Coefficient, cause: CoefficientCause): number {
  return rows.find((row) => row.cause === cause)?.standardUncertainty ?? 0;
}
