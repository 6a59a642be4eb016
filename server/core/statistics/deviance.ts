/**
 * x·log(x/m) + m − x: how far x lies from m, as densities of gamma and beta laws need it.
 *
 * Near m its terms cancel; there the series of C. Loader, Fast and Accurate Computation of Binomial
 * Probabilities (2000), section 4 (from memory), keeps all digits.
 * @param x above 0
 * @param m above 0
 */
export function deviance(x: number, m: number): number {
  const gap = x - m;
  if (Math.abs(gap) >= 0.1 * (x + m)) return x * Math.log(x / m) - gap;
  const v = gap / (x + m);
  let sum = gap * v;
  let power = 2 * x * v;
  for (let j = 1; ; j++) {
    power *= v * v;
    const next = sum + power / (2 * j + 1);
    // What is no number ends it as well: a loop has to end whatever comes in.
    if (next === sum || Number.isNaN(next)) return next;
    sum = next;
  }
}
