/**
 * The standard normal law.
 *
 * Φ(x) from the complementary error function by its continued fraction for large arguments and its
 * series for small ones (Abramowitz and Stegun 1964, 7.1.6 and 7.1.14, from memory).
 */

export function normalDensity(x: number): number {
  return Math.exp(-0.5 * x * x) / Math.sqrt(2 * Math.PI);
}

/** Where series and continued fraction are both quick. */
const CROSSING = 3;

/** P(X ≤ x); for instance `normalProbability(1.96)` is 0.975. */
export function normalProbability(x: number): number {
  if (x < -CROSSING) return upperTail(-x);
  if (x > CROSSING) return 1 - upperTail(x);
  // ½ + φ(x)·(x + x³/3 + x⁵/(3·5) + …)
  let term = x;
  let sum = x;
  for (let n = 3; Math.abs(term) > 1e-17 * Math.abs(sum); n += 2) {
    term *= (x * x) / n;
    sum += term;
  }
  return 0.5 + normalDensity(x) * sum;
}

/** φ(x)/(x + 1/(x + 2/(x + 3/(x + …)))), from its far end. */
function upperTail(x: number): number {
  let fraction = x;
  for (let n = 60; n > 0; n--) fraction = x + n / fraction;
  return normalDensity(x) / fraction;
}
