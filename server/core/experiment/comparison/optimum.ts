/**
 * Where between the levels of a numeric factor the response is highest.
 *
 * A parabola through all trials, its vertex with Fieller's limits (fieller.ts); where the means of
 * repeated levels miss a parabola by more than they scatter, or three levels can't show whether they
 * do, the levels around the highest one that are told apart from it, between which the highest
 * point lies if there is but one hill. Never outside of what was tried.
 */
import { ratioLimits } from '../../statistics/fieller.ts';
import { ALPHA, type Pair } from '../../statistics/groups.ts';
import { fitPolynomial } from '../../statistics/polynomial.ts';
import { studentTQuantile } from '../../statistics/student-t.ts';
import { betweenLevels } from './between-levels.ts';
import type { Optimum } from './comparison-schema.ts';
import type { NumericLevel } from './numeric-level.ts';
import { edgeAt, none, unbounded } from './optimum-kinds.ts';
import { parabolaOf, type Parabola } from './parabola.ts';
import type { Words } from './words.ts';

const FEWEST_LEVELS = 3;
/** Below this share of the whole scatter, what a curve leaves is rounding. */
const ROUNDING = 1e-20;

/**
 * @param levels from the smallest up, each with a trial in which the rotor turned
 * @param pairs their differences, null where nothing is known of the scatter
 */
export function optimumOf(
  levels: readonly NumericLevel[],
  pairs: readonly Pair[] | null,
  words: Words,
): Optimum {
  if (levels.length < FEWEST_LEVELS) {
    return none(`Where the most ${words.response} lies takes at least three levels to see.`);
  }
  const parabola = parabolaOf(levels);
  const { fit, scaled, responses, isOne } = parabola;
  /** Scatter of all trials about their mean. */
  const total = fitPolynomial(scaled, responses, 0).residualSquares;
  if (total === 0) return none(`All trials gave the same ${words.response}.`);
  const canBeChecked = levels.length > FEWEST_LEVELS && fit.residualFreedom > 0;
  if (canBeChecked && isOne !== 'no') {
    return vertexOf(parabola, fit.residualSquares <= ROUNDING * total, words);
  }
  if (pairs === null) {
    return none(`Run every level again: three single trials can't show where the most ${words.response} lies.`);
  }
  return betweenLevels(levels, pairs, words);
}

/** @param isExact nothing but rounding is left of the trials */
function vertexOf(of: Parabola, isExact: boolean, words: Words): Optimum {
  const { fit, first, last, scaled, responses, fromScale: back, isOne } = of;
  const method =
    isOne === 'yes'
      ? 'parabola, which fits, with Fieller limits'
      : 'parabola, which can’t be checked without repeated levels, with Fieller limits';
  const [, slope = 0, bend = 0] = fit.coefficients;
  const edge = (u: 1 | -1): Optimum => edgeAt(u === 1 ? last : first, method, words);
  const variance = isExact ? 0 : fit.residualVariance;
  const factor = -studentTQuantile(ALPHA / 2, fit.residualFreedom);
  const [bySlope, byBend] = [[0, 1, 0], [0, 0, 1]];
  // The vertex is −slope/(2·bend).
  const { limits } = ratioLimits({
    a: -slope,
    b: 2 * bend,
    varianceA: variance * fit.covariance(bySlope, bySlope),
    varianceB: 4 * variance * fit.covariance(byBend, byBend),
    covariance: -2 * variance * fit.covariance(bySlope, byBend),
    factor,
  });
  if (limits === null) {
    const line = fitPolynomial(scaled, responses, 1);
    const lineFactor = -studentTQuantile(ALPHA / 2, line.residualFreedom);
    const tilt = line.coefficients[1] ?? 0;
    if (Math.abs(tilt) > lineFactor * line.errors[1]!) return edge(tilt > 0 ? 1 : -1);
    return unbounded(method, words);
  }
  if (bend > 0) {
    const error = Math.sqrt(variance * fit.covariance(bySlope, bySlope));
    return Math.abs(slope) <= factor * error ? unbounded(method, words) : edge(slope > 0 ? 1 : -1);
  }
  const vertex = -slope / (2 * bend);
  if (vertex <= -1) return edge(-1);
  if (vertex >= 1) return edge(1);
  const at = back(vertex);
  if (isExact) {
    const statement = `The most ${words.response} lies near ${words.place(at, null)}; the trials lie so exactly on a curve that nothing can be said of its limits.`;
    return { kind: 'interior', at, low: null, high: null, method, statement };
  }
  const low = limits.low < -1 ? first : back(limits.low);
  const high = limits.high > 1 ? last : back(limits.high);
  const beyond = limits.low < -1 || limits.high > 1 ? ', or beyond what was tried' : '';
  const u = (high - low) / 2;
  const statement = `The most ${words.response} lies near ${words.place(at, u)}: somewhere from ${words.place(low, u)} to ${words.place(high, u)}${beyond}.`;
  return { kind: 'interior', at, low, high, method, statement };
}
