/**
 * The studentized range: the range of k normal means over their estimated standard error; or how
 * far the least of m chosen ones of them lies below the greatest of all k.
 *
 * For a known scatter P(range > w) = k∫φ(z){Φ(z)^(k−1) − [Φ(z) − Φ(z−w)]^(k−1)}dz (H. O. Hartley,
 * Biometrika 32 (1942) 334, from memory; written for the tail so that small values keep their
 * digits), by the trapezoid rule. With m chosen ones, by whether the greatest is one of them: its
 * m − 1 fellows, or all m, lie within w of it. m = k is the range; m = 1 is the law of C. W.
 * Dunnett, J. Am. Stat. Assoc. 50 (1955) 1096, one-sided, times √2. Its logarithm is kept as
 * Chebyshev series for one k and m, so that the mean over the estimated scatter
 * (scale-expectation.ts), and quantiles, cost little.
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
const made = new Map<string, StudentizedRange>();

/**
 * For instance `studentizedRange(3).upperQuantile(0.05, 10)` is 3.877.
 * @param groups k, a whole number from 2 on
 * @param chosen m, from 1 to k: how many of them the least is looked for among
 */
export function studentizedRange(groups: number, chosen = groups): StudentizedRange {
  if (!(groups >= 2)) throw new RangeError(`at least 2 groups are needed, not ${groups}`);
  if (!(chosen >= 1 && chosen <= groups)) {
    throw new RangeError(`from 1 to ${groups} groups can be chosen, not ${chosen}`);
  }
  const key = `${groups} ${chosen}`;
  const law = made.get(key) ?? makeLaw(groups, chosen);
  made.set(key, law);
  return law;
}

function makeLaw(groups: number, chosen: number): StudentizedRange {
  const nodes = nodesFrom(-FARTHEST_Z, NODES + WIDEST / 2 / STEP);
  const tailAt = (w: number): number => rangeTail(w, { groups, chosen, nodes });
  const logTail = chebyshevSeries((w) => Math.log(tailAt(w)), PIECES, DEGREE);
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

interface Chosen {
  readonly groups: number;
  readonly chosen: number;
  readonly nodes: readonly Node[];
}

/** P(greatest of k standard normal values − least of m of them > w), for w up to WIDEST. */
function rangeTail(w: number, { groups, chosen, nodes }: Chosen): number {
  const rest = groups - chosen;
  let sum = 0;
  // What counts lies about half of w, where it is large.
  const first = Math.max(0, Math.floor(w / 2 / STEP));
  for (const { z, density, below } of nodes.slice(first, first + NODES)) {
    const outside = Math.log1p(-Math.min(1, normalUpperTail(w - z) / below));
    const byFellows = chosen === 1 ? 0 : chosen * Math.expm1((chosen - 1) * outside);
    const byAll = rest === 0 ? 0 : rest * Math.expm1(chosen * outside);
    sum -= density * below ** (groups - 1) * (byFellows + byAll);
  }
  return STEP * sum;
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
