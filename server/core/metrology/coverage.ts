/** By what a standard uncertainty is to be multiplied for an interval that covers 95 %. */
import { normalDensity, normalUpperTail } from '../statistics/normal.ts';
import { studentTQuantile } from '../statistics/student-t.ts';

const UPPER = 0.975;
const NORMAL = 1.9599639845400545;
/** From here on Student's t is the normal law and three corrections, to seven digits. */
const MANY_DEGREES = 60;
/** Below this share of the variance a rectangle makes no difference to three digits. */
const LEAST_SHARE = 0.02;

/**
 * k for a result of independent components. Many of like size make a normal law: Student's t with
 * the effective degrees of freedom (GUM G.3.2, G.4.1). Where one rectangle outweighs the others
 * that is too wide (GUM G.2.1: the central limit theorem does not hold; ±1.96·a/√3 would lie beyond
 * its limits), so k is then that of this rectangle and a normal law for all the rest, in the ratio
 * that Student's t has to the normal law.
 * @param largestRectangle its share of the variance, 0 where none is rectangular
 */
export function coverageFactor(result: {
  readonly largestRectangle: number;
  readonly degreesOfFreedom: number;
}): number {
  const t = studentT(result.degreesOfFreedom);
  const share = Math.min(result.largestRectangle, 1);
  return share < LEAST_SHARE ? t : (t / NORMAL) * rectangleAndNormal(share);
}

/** Abramowitz and Stegun 1964, 26.7.5 (from memory): the exact one takes long for many degrees. */
function studentT(nu: number): number {
  if (nu < MANY_DEGREES) return studentTQuantile(UPPER, nu);
  const z = NORMAL;
  const first = (z ** 3 + z) / 4;
  const second = (5 * z ** 5 + 16 * z ** 3 + 3 * z) / 96;
  const third = (3 * z ** 7 + 19 * z ** 5 + 17 * z ** 3 - 15 * z) / 384;
  return z + (first + (second + third / nu) / nu) / nu;
}

/**
 * The 97.5 % quantile of a rectangle and a normal law added up, of variance 1 together. With half
 * width a and standard deviation s,
 *     F(x) = [s·H((x + a)/s) − s·H((x − a)/s)]/(2a),  H(z) = z·Φ(z) + φ(z),
 * the normal law averaged over the rectangle; its density is [Φ((x + a)/s) − Φ((x − a)/s)]/(2a). For a rectangle alone it is 0.95·√3 = 1.645.
 */
function rectangleAndNormal(share: number): number {
  const a = Math.sqrt(3 * share);
  const s = Math.sqrt(Math.max(1 - share, 1e-8));
  let x = 1.6;
  // The density falls, so Newton's steps from below end below: they never leave the rectangle.
  for (let i = 0; i < 12; i++) {
    const [high, low] = [(x + a) / s, (x - a) / s];
    const [atHigh, atLow] = [normalUpperTail(-high), normalUpperTail(-low)];
    const areas = high * atHigh + normalDensity(high) - low * atLow - normalDensity(low);
    const step = (s * areas - 2 * a * UPPER) / (atHigh - atLow);
    x -= step;
    if (Math.abs(step) < 1e-9) break;
  }
  return x;
}
