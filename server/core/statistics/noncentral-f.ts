/**
 * The noncentral F law: what F becomes when the levels do differ; it gives the power of a design.
 *
 * A mixture of F-like laws with Poisson weights of mean λ/2 (Abramowitz and Stegun 1964, 26.6.18),
 * summed from the heaviest weight outwards.
 */
import { checkFreedom } from './domain.ts';
import type { FFreedom } from './f.ts';
import { incompleteBeta } from './incomplete-beta.ts';
import { logGamma } from './log-gamma.ts';

const NEGLIGIBLE = 1e-17;

/**
 * P(F > f).
 * @param lambda Σ nᵢ(μᵢ − μ̄)²/σ², from 0 on
 * @throws RangeError unless degrees of freedom are above 0 (df2 finite)
 */
export function noncentralFUpperTail(f: number, { df1, df2 }: FFreedom, lambda: number): number {
  checkFreedom(df1, df2);
  if (f <= 0) return 1;
  const ratio = (df1 / df2) * f;
  const [x, y] = [1 / (1 + ratio), ratio / (1 + ratio)];
  const half = lambda / 2;
  const weight = (j: number): number =>
    half === 0 ? Number(j === 0) : Math.exp(j * Math.log(half) - half - logGamma(j + 1));
  const part = (j: number): number => weight(j) * incompleteBeta(x, y, df2 / 2, df1 / 2 + j).lower;
  const heaviest = Math.floor(half);
  let sum = 0;
  for (let j = heaviest; j >= 0 && weight(j) > NEGLIGIBLE; j--) sum += part(j);
  for (let j = heaviest + 1; weight(j) > NEGLIGIBLE; j++) sum += part(j);
  return Math.min(1, sum);
}
