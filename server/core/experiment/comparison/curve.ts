/**
 * The parabola through the trials of a numeric factor, to be drawn between the levels tried, with
 * the band that holds it in 95 of 100 experiments at any one place (confidence limits of a fitted
 * value: NIST/SEMATECH e-Handbook of Statistical Methods, 4.5.1.1).
 */
import { ALPHA, momentsOf } from '../../statistics/groups.ts';
import type { Polynomial } from '../../statistics/polynomial.ts';
import { studentTQuantile } from '../../statistics/student-t.ts';
import type { ComparedTrial } from './comparison-schema.ts';
import { groupByLevel, hasTurned, isNumeric, responsesOf } from './level-groups.ts';
import { parabolaOf } from './parabola.ts';

export interface CurvePoint {
  /** In the factor's unit. */
  readonly at: number;
  /** In the response's unit, with 95 % limits. */
  readonly mean: number;
  readonly low: number;
  readonly high: number;
}

const POINTS = 41;
/** With three levels every parabola goes through their means: nothing shows whether it is one. */
const FEWEST_LEVELS = 4;

/** Null where the levels are names or few, or miss a parabola by more than trials scatter. */
export function parabolaThrough(trials: readonly ComparedTrial[]): readonly CurvePoint[] | null {
  const groups = groupByLevel(trials).filter(hasTurned);
  const places = groups.map(({ level }) => level);
  if (!isNumeric(places) || places.length < FEWEST_LEVELS) return null;
  const { fit, first, last, toScale, isOne } = parabolaOf(
    groups.map((group, i) => {
      const responses = responsesOf(group);
      return { x: places[i]!, moments: momentsOf(responses), responses };
    }),
  );
  if (fit.residualFreedom < 1 || isOne === 'no') return null;
  return Array.from({ length: POINTS }, (_, i) => {
    const at = first + ((last - first) * i) / (POINTS - 1);
    return { at, ...bandAt(fit, toScale(at)) };
  });
}

function bandAt(fit: Polynomial, u: number): Omit<CurvePoint, 'at'> {
  const powers = [1, u, u ** 2];
  const mean = powers.reduce((sum, power, i) => sum + power * fit.coefficients[i]!, 0);
  const variance = fit.residualVariance * fit.covariance(powers, powers);
  const half = studentTQuantile(1 - ALPHA / 2, fit.residualFreedom) * Math.sqrt(variance);
  return { mean, low: mean - half, high: mean + half };
}
