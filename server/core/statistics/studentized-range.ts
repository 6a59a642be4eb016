/**
 * The studentized range: the range of k normal means over their estimated standard error.
 *
 * For a known scatter P(range > w) = k∫φ(z){Φ(z)^(k−1) − [Φ(z) − Φ(z−w)]^(k−1)}dz (H. O. Hartley,
 * Biometrika 32 (1942) 334, from memory; written for the tail so that small values keep their
 * digits), by the trapezoid rule. Its logarithm is kept as Chebyshev series for one k, so that the
 * mean over the estimated scatter (scale-expectation.ts), and quantiles, cost little.
 */
import { chebyshevSeries } from './chebyshev.ts';
import { checkFreedom, checkProbability } from './domain.ts';
import { normalDensity, normalUpperTail } from './normal.ts';
import { scaleExpectation } from './scale-expectation.ts';
import { tailRoot } from './tail-root.ts';

export interface StudentizedRange {
  /** P(Q > q) for ν degrees of freedom of the scatter; Infinity where it is known. */
  upperTail(q: number, degreesOfFreedom: number): number;
  /** The q that is exceeded with this probability, above 0 and below 1. */
  upperQuantile(tail: number, degreesOfFreedom: number): number;
}

/** Beyond this range, in standard errors, a tail is below 1e-80 and counts as nothing. */
const WIDEST = 30;
const STEP = 0.2;
const FARTHEST_Z = 8.5;
/** Places z, STEP apart, that count for one w. */
const NODES = (2 * FARTHEST_Z) / STEP;
/** Ends of the stretches that have a series of their own; near 0 the tail changes most. */
const PIECES = [0, 2, 4, 7, 12, 20, WIDEST];
const DEGREE = 18;

/** A law once made serves every comparison of as many levels. */
const made = new Map<number, StudentizedRange>();

/**
 * For instance `studentizedRange(3).upperQuantile(0.05, 10)` is 3.877.
 * @param groups k, a whole number from 2 on
 */
export function studentizedRange(groups: number): StudentizedRange {
  if (!(groups >= 2)) throw new RangeError(`at least 2 groups are needed, not ${groups}`);
  const law = made.get(groups) ?? makeLaw(groups);
  made.set(groups, law);
  return law;
}

function makeLaw(groups: number): StudentizedRange {
  const nodes = nodesFrom(-FARTHEST_Z, NODES + WIDEST / 2 / STEP);
  const logTail = chebyshevSeries((w) => Math.log(rangeTail(w, groups, nodes)), PIECES, DEGREE);
  const known = (w: number): number => (w >= WIDEST ? 0 : Math.min(1, Math.exp(logTail(w))));
  const upperTail = (q: number, degreesOfFreedom: number): number => {
    checkFreedom(degreesOfFreedom);
    return q <= 0 ? 1 : scaleExpectation((s) => known(q * s), degreesOfFreedom);
  };
  return {
    upperTail,
    upperQuantile(tail, degreesOfFreedom) {
      checkProbability(tail);
      return tailRoot((q) => upperTail(q, degreesOfFreedom), tail);
    },
  };
}

/** P(range of k standard normal values > w), for w up to WIDEST. */
function rangeTail(w: number, groups: number, nodes: readonly Node[]): number {
  const others = groups - 1;
  let sum = 0;
  // What counts lies about half of w, where it is large.
  const first = Math.max(0, Math.floor(w / 2 / STEP));
  for (const { z, density, below } of nodes.slice(first, first + NODES)) {
    const outside = Math.min(1, normalUpperTail(w - z) / below);
    sum -= density * below ** others * Math.expm1(others * Math.log1p(-outside));
  }
  return groups * STEP * sum;
}

interface Node {
  readonly z: number;
  readonly density: number;
  /** P(Z < z) */
  readonly below: number;
}

function nodesFrom(start: number, count: number): Node[] {
  return Array.from({ length: count }, (_, i) => {
    const z = start + i * STEP;
    return { z, density: normalDensity(z), below: normalUpperTail(-z) };
  });
}
