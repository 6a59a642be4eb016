/**
 * Power against wind as the trials come in: of those that are set like the newest one, whatever the
 * fan was set to. It is drawn once their winds lie far enough apart to be a curve.
 */
import { meanOf } from '../../metrology/type-a/series.ts';
import { BENCH_BIN_mps, type CurveBin } from '../../rotor/wind/power-curve.ts';
import type { Plan } from '../plan/plan.ts';
import type { ShownTrial } from '../trial.ts';
import type { ExperimentView } from '../view.ts';
import { binsOf, trialsOnCurve, type TrialOnCurve } from './curve-of-trials.ts';

export type WindCurve =
  /** Winds far enough apart, but nobody has said how large the rotor is. */
  | { readonly kind: 'rotor not described' }
  | {
      readonly kind: 'known';
      readonly trials: readonly TrialOnCurve<ShownTrial>[];
      /** At the mean density of the trials' own air, so that they lie on it. */
      readonly bins: readonly CurveBin[];
    };

/** Two bins apart or more: one wind that lies at the edge of a bin is in two of them. */
const LEAST_SPAN_mps = 2 * BENCH_BIN_mps;

/** Null where the winds are one wind. @param trials by number */
export function windCurveOf(
  experiment: Pick<ExperimentView, 'plan' | 'instruments' | 'rotorAndAir' | 'airs'>,
  trials: readonly ShownTrial[],
): WindCurve | null {
  const read = trials.filter(counts);
  const newest = read.at(-1);
  if (newest === undefined) return null;
  const isFan = fanKeys(experiment.plan);
  const alike = read.filter((one) => settingOf(one, isFan) === settingOf(newest, isFan));
  const winds = alike.map(({ windSpeed_mps }) => windSpeed_mps?.value ?? 0);
  if (Math.max(...winds) - Math.min(...winds) < LEAST_SPAN_mps) return null;
  if (experiment.rotorAndAir === null) return { kind: 'rotor not described' };
  const placed = trialsOnCurve(alike, experiment);
  if (placed.length === 0) return null;
  const density_kgpm3 = meanOf(placed.map(({ coefficient }) => coefficient.airDensity_kgpm3));
  return { kind: 'known', trials: placed, bins: binsOf(placed, density_kgpm3) };
}

function counts({ recorded, struck, rotorStill, power_W, windSpeed_mps }: ShownTrial): boolean {
  return recorded && !struck && !rotorStill && power_W !== null && windSpeed_mps !== null;
}

/** Names of the levels that are the wind's, not the rotor's. */
function fanKeys(plan: Plan | null): ReadonlySet<string> {
  const fans = plan?.factors.filter(({ kind }) => kind === 'fan') ?? [];
  return new Set(fans.map(({ key }) => key));
}

function settingOf({ factors }: ShownTrial, isFan: ReadonlySet<string>): string {
  const others = Object.entries(factors).filter(([key]) => !isFan.has(key));
  return JSON.stringify(others.sort(([a], [b]) => (a < b ? -1 : 1)));
}
