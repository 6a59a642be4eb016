/**
 * Randomised blocks: the differences of levels within blocks (rounds, groups, rigs), y = level +
 * block + error (NIST/SEMATECH e-Handbook, 5.3.3.2), by least squares, so that blocks need not be
 * complete. Levels are adjusted for blocks and blocks for levels; with complete blocks the order
 * makes no difference.
 */
import { cellsOf, classColumns, marked, type Classified } from './cells.ts';
import { fUpperTail } from './f.ts';
import type { Pair } from './groups.ts';
import { leastSquares } from './least-squares.ts';
import { rangeOfPairs } from './tukey.ts';

export interface Blocked {
  readonly f: number;
  readonly dfBetween: number;
  readonly dfWithin: number;
  readonly p: number;
  readonly fBlock: number;
  readonly dfBlock: number;
  readonly pBlock: number;
  /** Differences of levels, adjusted for blocks, by Tukey and Kramer. */
  readonly pairs: readonly Pair[];
}

/** Below this share of all squares, those that are left are rounding. */
const ROUNDING = 1e-24;

/**
 * Null where it can't be told: fewer than two levels or blocks, nothing left for the error, levels
 * that no chain of blocks connects, or no scatter.
 * @param observations `row` is the level, `column` the block
 */
export function blocked(observations: readonly Classified[]): Blocked | null {
  const { cells, rows: levels, columns: blocks, ...within } = cellsOf(observations);
  if (levels < 2 || blocks < 2) return null;
  const y = cells.map(({ weight, mean }) => weight * mean);
  const ones = [marked(cells, () => true)];
  const levelColumns = classColumns(cells, 'row', levels);
  const blockColumns = classColumns(cells, 'column', blocks);
  const whole = leastSquares([...ones, ...blockColumns, ...levelColumns], y);
  const withoutLevels = leastSquares([...ones, ...blockColumns], y);
  const withoutBlocks = leastSquares([...ones, ...levelColumns], y);
  const dfWithin = whole.residualFreedom + within.withinFreedom;
  const squares = whole.residualSquares + within.withinSquares;
  const dfBetween = whole.rank - withoutLevels.rank;
  const dfBlock = whole.rank - withoutBlocks.rank;
  const total = y.reduce((sum, value) => sum + value ** 2, 0) + within.withinSquares;
  const isConnected = dfBetween === levels - 1 && dfBlock >= 1;
  if (dfWithin < 1 || !isConnected || squares <= ROUNDING * total) return null;
  const variance = squares / dfWithin;
  const f = (withoutLevels.residualSquares - whole.residualSquares) / dfBetween / variance;
  const fBlock = (withoutBlocks.residualSquares - whole.residualSquares) / dfBlock / variance;
  const contrast = (a: number, b: number): number[] =>
    Array.from({ length: 1 + blockColumns.length + levelColumns.length }, (_, place) => {
      const level = place - blockColumns.length;
      if (place <= blockColumns.length) return 0;
      return Number(level === a) - Number(level === b);
    });
  const pairs = rangeOfPairs({
    groups: levels,
    difference: (a, b) => {
      const by = contrast(a, b);
      return whole.coefficients.reduce((sum, value, i) => sum + value * by[i]!, 0);
    },
    error: (a, b) => {
      const by = contrast(a, b);
      return Math.sqrt(variance * whole.covariance(by, by));
    },
    degreesOfFreedom: dfWithin,
  });
  const p = fUpperTail(f, { df1: dfBetween, df2: dfWithin });
  const pBlock = fUpperTail(fBlock, { df1: dfBlock, df2: dfWithin });
  return { f, dfBetween, dfWithin, p, fBlock, dfBlock, pBlock, pairs };
}
