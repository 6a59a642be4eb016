/** Quantile of Student's t distribution, real degrees of freedom. */

/**
 * By bisection on the distribution function, which is the regularised incomplete beta function
 * (Abramowitz and Stegun 26.7.1 and 26.5.8, continued fraction).
 */
export function studentQuantile(probability: number, degreesOfFreedom: number): number {
  if (probability < 0.5) return -studentQuantile(1 - probability, degreesOfFreedom);
  let low = 0;
  let high = 1;
  while (studentCumulative(high, degreesOfFreedom) < probability) high *= 2;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (studentCumulative(middle, degreesOfFreedom) < probability) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Probability of a value up to t ≥ 0. */
function studentCumulative(t: number, degreesOfFreedom: number): number {
  const x = degreesOfFreedom / (degreesOfFreedom + t * t);
  return 1 - 0.5 * incompleteBeta(x, degreesOfFreedom / 2, 0.5);
}

function incompleteBeta(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  if (x > (a + 1) / (a + b + 2)) return 1 - incompleteBeta(1 - x, b, a);
  const front = Math.exp(
    logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log(1 - x),
  );
  return (front * betaFraction(x, a, b)) / a;
}

/** The continued fraction by Lentz's method. */
function betaFraction(x: number, a: number, b: number): number {
  let c = 1;
  let d = 1 / keepOff(1 - ((a + b) * x) / (a + 1));
  let fraction = d;
  for (let m = 1; m < 500; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / keepOff(1 + even * d);
    c = keepOff(1 + even / c);
    fraction *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / keepOff(1 + odd * d);
    c = keepOff(1 + odd / c);
    fraction *= d * c;
    if (Math.abs(d * c - 1) < 1e-14) break;
  }
  return fraction;
}

function keepOff(value: number): number {
  return Math.abs(value) < 1e-300 ? 1e-300 : value;
}

/** Stirling's series (Abramowitz and Stegun 6.1.41) after moving the argument up to ten. */
function logGamma(x: number): number {
  let shift = 0;
  let y = x;
  for (; y < 10; y += 1) shift += Math.log(y);
  const inverse = 1 / (y * y);
  const series = (1 / 12 - inverse * (1 / 360 - inverse * (1 / 1260 - inverse / 1680))) / y;
  return (y - 0.5) * Math.log(y) - y + 0.5 * Math.log(2 * Math.PI) + series - shift;
}
