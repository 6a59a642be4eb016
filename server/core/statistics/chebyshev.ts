/**
 * A smooth function kept as Chebyshev series on neighbouring stretches, where its own evaluation is
 * dear: coefficients from its values at the zeros of T_(n+1), sums by Clenshaw's recurrence
 * (L. Fox, I. B. Parker, Chebyshev Polynomials in Numerical Analysis, 1968, from memory).
 * @param ends of the stretches, rising
 * @param degree of each series
 * @returns the function between the first and the last end
 */
export function chebyshevSeries(
  of: (x: number) => number,
  ends: readonly number[],
  degree: number,
): (x: number) => number {
  const pieces = ends.slice(1).map((end, i) => {
    const start = ends[i] ?? 0;
    const [middle, half] = [(start + end) / 2, (end - start) / 2];
    return { end, middle, half, series: coefficients((u) => of(middle + half * u), degree) };
  });
  return (x) => {
    let place = 0;
    while (place < pieces.length - 1 && x >= pieces[place]!.end) place++;
    const { series, middle, half } = pieces[place]!;
    return clenshaw(series, (x - middle) / half);
  };
}

function coefficients(of: (u: number) => number, degree: number): Float64Array {
  const count = degree + 1;
  const angles = Array.from({ length: count }, (_, j) => ((j + 0.5) * Math.PI) / count);
  const values = angles.map((angle) => of(Math.cos(angle)));
  return Float64Array.from({ length: count }, (_, n) => {
    const parts = angles.map((angle, j) => (values[j] ?? 0) * Math.cos(n * angle));
    const sum = parts.reduce((total, part) => total + part, 0);
    return (sum * (n === 0 ? 1 : 2)) / count;
  });
}

function clenshaw(series: Float64Array, u: number): number {
  let next = 0;
  let afterNext = 0;
  for (let n = series.length - 1; n > 0; n--) {
    const here = 2 * u * next - afterNext + series[n]!;
    afterNext = next;
    next = here;
  }
  return u * next - afterNext + series[0]!;
}
