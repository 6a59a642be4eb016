/**
 * The highest point without a curve's shape: if there is but one hill, it lies between the nearest
 * levels on either side that are told apart from the highest one. As sure as the differences are,
 * all of them at once.
 */
import type { Pair } from '../../statistics/groups.ts';
import { fitPolynomial } from '../../statistics/polynomial.ts';
import { seen } from './best-level.ts';
import type { Optimum } from './comparison-schema.ts';
import type { NumericLevel } from './numeric-level.ts';
import { edgeAt, unbounded } from './optimum-kinds.ts';
import type { Words } from './words.ts';

const METHOD = 'between the nearest levels that are told apart from the highest';

/** @param levels from the smallest up */
export function betweenLevels(
  levels: readonly NumericLevel[],
  pairs: readonly Pair[],
  words: Words,
): Optimum {
  const means = levels.map(({ moments }) => moments.mean);
  const top = means.indexOf(Math.max(...means));
  const isLower = (_: NumericLevel, place: number): boolean =>
    place !== top && seen(pairs, top, place).low > 0;
  const lower = levels.map(isLower);
  const before = lower.lastIndexOf(true, top);
  const after = lower.indexOf(true, top);
  const isAtEdge = top === 0 || top === levels.length - 1;
  if (isAtEdge && before + after !== -2) return edgeAt(levels[top]!.x, METHOD, words);
  if (before < 0 || after < 0) return unbounded(METHOD, words);
  const [low, high] = [levels[before]!.x, levels[after]!.x];
  const at = hillTop(levels, top);
  const statement = `The most ${words.response} lies between ${words.level(low)} and ${words.level(high)}, as far as there is but one hill; of the levels tried, ${words.level(levels[top]!.x)} shows the most.`;
  return { kind: 'interior', at, low, high, method: METHOD, statement };
}

/** Top of the parabola through the highest mean and its neighbours; it lies between these. */
function hillTop(levels: readonly NumericLevel[], top: number): number {
  const near = levels.slice(top - 1, top + 2);
  const { x } = levels[top]!;
  const from = near.map((level) => level.x - x);
  const { coefficients } = fitPolynomial(from, near.map(({ moments }) => moments.mean), 2);
  const [, slope = 0, bend = 0] = coefficients;
  return bend < 0 ? x - slope / (2 * bend) : x;
}
