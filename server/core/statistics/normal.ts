/**
 * The standard normal law, by series near 0 and by continued fraction in the tails (Abramowitz and
 * Stegun 1964, 26.2.11 and 26.2.14), so that small probabilities keep their digits.
 */
import { checkProbability } from './domain.ts';
import { tailRoot } from './tail-root.ts';

const DENSITY_AT_0 = 1 / Math.sqrt(2 * Math.PI);
const TAIL_FROM = 2.5;
/** So many terms, shared out by z², and ten more give all digits (tried against 30-digit sums). */
const FRACTION_TERMS = 400;

export function normalDensity(z: number): number {
  return DENSITY_AT_0 * Math.exp(-0.5 * z * z);
}

/** P(Z > z); P(Z < z) is `normalUpperTail(-z)`. For instance `normalUpperTail(1.96)` is 0.025. */
export function normalUpperTail(z: number): number {
  if (z < -TAIL_FROM) return 1 - tailFraction(-z);
  return z > TAIL_FROM ? tailFraction(z) : 0.5 - fromZero(z);
}

/** P(0 < Z < z) = φ(z)(z + z³/3 + z⁵/(3·5) + …). */
function fromZero(z: number): number {
  let term = z;
  let sum = z;
  for (let n = 3; Math.abs(term) > 1e-17 * Math.abs(sum); n += 2) {
    term *= (z * z) / n;
    sum += term;
  }
  return normalDensity(z) * sum;
}

/** P(Z > z) = φ(z)/(z + 1/(z + 2/(z + 3/(z + …)))). */
function tailFraction(z: number): number {
  let rest = z;
  const terms = Math.ceil(FRACTION_TERMS / (z * z)) + 10;
  for (let n = terms; n > 0; n--) rest = z + n / rest;
  return normalDensity(z) / rest;
}

/**
 * The value that Z stays below with this probability; for instance `normalQuantile(0.975)` is 1.96.
 * Close to 1 take `-normalQuantile(q)` of the small rest q instead: it has more digits.
 * @param probability strictly between 0 and 1
 * @throws RangeError outside that
 */
export function normalQuantile(probability: number): number {
  checkProbability(probability);
  if (probability === 0.5) return 0;
  const z = tailRoot(normalUpperTail, Math.min(probability, 1 - probability));
  return probability < 0.5 ? -z : z;
}
