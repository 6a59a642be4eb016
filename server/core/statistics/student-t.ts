/**
 * Student's t distribution.
 *
 * P(|T| > t) = I_x(ν/2, ½) with x = ν/(ν + t²), I the regularized incomplete beta function
 * (Abramowitz and Stegun 1964, 26.7.1), by its continued fraction (26.5.8).
 */

/** Above this the continued fraction is slow and the expansion about the normal law exact enough. */
const MANY_DEGREES = 1e6;
const TINY = 1e-300;

/** Γ(a + ½)/Γ(a) for a > 0: recurrence up to where its asymptotic series holds to 1e-14. */
function halfStepGammaRatio(a: number): number {
  let shift = 1;
  let large = a;
  for (; large < 16; large++) shift *= large / (large + 0.5);
  const r = 1 / large;
  const r2 = r * r;
  const log = r * (-1 / 8 + r2 * (1 / 192 + r2 * (-1 / 640 + r2 * (17 / 14336))));
  return shift * Math.sqrt(large) * Math.exp(log);
}

/** The continued fraction of I_x(a, b), by the modified Lentz method; quick for x < (a+1)/(a+b+2). */
function betaFraction(x: number, a: number, b: number): number {
  const term = (value: number): number => (Math.abs(value) < TINY ? TINY : value);
  let c = 1;
  let d = 1 / term(1 - ((a + b) * x) / (a + 1));
  let fraction = d;
  for (let m = 1; m < 100_000; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / term(1 + even * d);
    c = term(1 + even / c);
    fraction *= c * d;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / term(1 + odd * d);
    c = term(1 + odd / c);
    fraction *= c * d;
    if (Math.abs(c * d - 1) < 1e-15) break;
  }
  return fraction;
}

/** P(T > t) for t ≥ 0 and ν degrees of freedom. */
function upperTail(t: number, nu: number): number {
  const a = nu / 2;
  const x = nu / (nu + t * t);
  const y = (t * t) / (nu + t * t);
  // x^a·y^½ / B(a, ½), with x^a by log1p so that it keeps its digits when ν is large.
  const power = Math.exp(-a * Math.log1p((t * t) / nu));
  const front = (power * Math.sqrt(y) * halfStepGammaRatio(a)) / Math.sqrt(Math.PI);
  const twoSided =
    x < (a + 1) / (a + 2.5)
      ? (front * betaFraction(x, a, 0.5)) / a
      : 1 - (front * betaFraction(y, 0.5, a)) / 0.5;
  return twoSided / 2;
}

/** Density of the t distribution. */
function density(t: number, nu: number): number {
  const shape = Math.exp((-(nu + 1) / 2) * Math.log1p((t * t) / nu));
  return (halfStepGammaRatio(nu / 2) / Math.sqrt(nu * Math.PI)) * shape;
}

/**
 * The value that T stays below with the given probability; for instance
 * `studentTQuantile(0.975, 9)` is 2.262: the coverage factor for 95 % and nine degrees of freedom.
 * @param probability strictly between 0 and 1
 * @param degreesOfFreedom greater than 0, not necessarily whole; Infinity gives the normal law
 * @throws RangeError outside that
 */
export function studentTQuantile(probability: number, degreesOfFreedom: number): number {
  if (!(probability > 0 && probability < 1)) {
    throw new RangeError(`a probability between 0 and 1 is needed, not ${probability}`);
  }
  if (!(degreesOfFreedom > 0)) {
    throw new RangeError(`degrees of freedom above 0 are needed, not ${degreesOfFreedom}`);
  }
  if (probability < 0.5) return -studentTQuantile(1 - probability, degreesOfFreedom);
  if (degreesOfFreedom > MANY_DEGREES) return nearNormalQuantile(probability, degreesOfFreedom);
  return solve(1 - probability, degreesOfFreedom);
}

/** t = z + (z³ + z)/4ν + O(ν⁻²) (Abramowitz and Stegun, 26.7.5), used in both directions. */
function nearNormalQuantile(probability: number, nu: number): number {
  const term = (z: number, degrees: number): number => (z ** 3 + z) / (4 * degrees);
  const known = solve(1 - probability, MANY_DEGREES);
  const normal = known - term(known, MANY_DEGREES);
  return normal + term(normal, nu);
}

/** The t ≥ 0 with the given upper tail: Newton steps, bisection where one would leave the bracket. */
function solve(tail: number, nu: number): number {
  let low = 0;
  let high = 1;
  while (upperTail(high, nu) > tail) {
    low = high;
    high *= 2;
  }
  let t = (low + high) / 2;
  for (let round = 0; round < 200; round++) {
    const excess = upperTail(t, nu) - tail;
    if (excess > 0) low = t;
    else high = t;
    const newton = t + excess / density(t, nu);
    const next = newton > low && newton < high ? newton : (low + high) / 2;
    if (Math.abs(next - t) <= 1e-14 * next) return next;
    t = next;
  }
  return t;
}
