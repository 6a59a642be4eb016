/**
 * Levels and blocks, by least squares: y = level + block + scatter. Blocks take up what drifts from
 * round to round, and need not hold every level.
 *
 * Intrablock analysis of a general block design: with n_ab the count of level a in block b and
 * N_b the block's size, the level effects solve C·effect = Q, C = diag(n_a) − Σ_b n_ab·n_a'b/N_b,
 * Q the levels' sums of the readings' deviations from their block's mean (P. W. M. John,
 * Statistical Design and Analysis of Experiments, 1971, ch. 11, from memory; any text on linear
 * models).
 */
import { inverse } from './inverse.ts';

export interface BlockReading {
  /** Index of the level, from 0. */
  readonly level: number;
  /** Index of the block, from 0. */
  readonly block: number;
  readonly y: number;
}

export interface BlockFit {
  /** Level effects; only differences within one component mean anything. */
  readonly effects: readonly number[];
  /** Whether two levels are linked by blocks, so that their difference can be told. */
  linked(a: number, b: number): boolean;
  /** Variance of effect a − effect b, in units of the scatter's variance. */
  contrastVariance(a: number, b: number): number;
  /** Sum of squared residuals, and its degrees of freedom. */
  readonly squares: number;
  readonly degreesOfFreedom: number;
  /** The same for one level: squared residuals, and the freedom that they have, Σ(1 − leverage). */
  readonly own: readonly { readonly squares: number; readonly freedom: number }[];
}

/** @param levelCount how many levels there are; each must have a reading */
export function fitBlocks(readings: readonly BlockReading[], levelCount: number): BlockFit {
  const blocks = blocksOf(readings, levelCount);
  const component = componentsOf(blocks, levelCount);
  const information = grounded(informationOf(blocks, levelCount), component);
  const solve = inverse(information);
  const right = deviationSums(readings, blocks, levelCount);
  const effects = solve.map((row) => dot(row, right));
  const own = Array.from({ length: levelCount }, () => ({ squares: 0, freedom: 0 }));
  const middles = blocks.map(({ counts, size }) => middleOf(counts, { size, effects, solve }));
  for (const { level, block, y } of readings) {
    const { size, mean } = blocks[block]!;
    const { effect, covariances, variance } = middles[block]!;
    const residual = y - mean - (effects[level]! - effect);
    const leverage = 1 / size + solve[level]![level]! - 2 * covariances[level]! + variance;
    own[level]!.squares += residual ** 2;
    own[level]!.freedom += Math.max(0, 1 - leverage);
  }
  const rank = levelCount - new Set(component).size;
  return {
    effects,
    linked: (a, b) => component[a] === component[b],
    contrastVariance: (a, b) => solve[a]![a]! + solve[b]![b]! - 2 * solve[a]![b]!,
    squares: own.reduce((sum, { squares }) => sum + squares, 0),
    degreesOfFreedom: readings.length - blocks.length - rank,
    own,
  };
}

interface Block {
  /** Readings of each level. */
  readonly counts: number[];
  size: number;
  mean: number;
}

function blocksOf(readings: readonly BlockReading[], levelCount: number): Block[] {
  const blocks: Block[] = [];
  for (const { level, block, y } of readings) {
    const counts = new Array<number>(levelCount).fill(0);
    const held = (blocks[block] ??= { counts, size: 0, mean: 0 });
    held.counts[level]!++;
    held.size++;
    held.mean += (y - held.mean) / held.size;
  }
  return blocks;
}

/** For each level a number that levels linked by blocks have in common. */
function componentsOf(blocks: readonly Block[], levelCount: number): number[] {
  const component = Array.from({ length: levelCount }, (_, a) => a);
  for (const { counts } of blocks) {
    const joined = component.filter((_, a) => counts[a]! > 0);
    const least = Math.min(...joined);
    for (let a = 0; a < levelCount; a++) if (joined.includes(component[a]!)) component[a] = least;
  }
  return component;
}

function informationOf(blocks: readonly Block[], levelCount: number): number[][] {
  const matrix = Array.from({ length: levelCount }, () => new Array<number>(levelCount).fill(0));
  for (const { counts, size } of blocks) {
    for (let a = 0; a < levelCount; a++) {
      matrix[a]![a]! += counts[a]!;
      for (let b = 0; b < levelCount; b++) matrix[a]![b]! -= (counts[a]! * counts[b]!) / size;
    }
  }
  return matrix;
}

/** Made solvable: within a component the effects sum to 0. */
function grounded(matrix: readonly number[][], component: readonly number[]): number[][] {
  return matrix.map((row, a) =>
    row.map((value, b) => value + (component[a] === component[b] ? 1 : 0)),
  );
}

function deviationSums(
  readings: readonly BlockReading[],
  blocks: readonly Block[],
  levelCount: number,
): number[] {
  const sums = new Array<number>(levelCount).fill(0);
  for (const { level, block, y } of readings) sums[level]! += y - blocks[block]!.mean;
  return sums;
}

function dot(a: readonly number[], b: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}

interface Middle {
  /** Mean effect of the levels in a block, each counted as often as it is there. */
  readonly effect: number;
  /** Its covariance with each level's effect, and its variance, in units of the scatter's. */
  readonly covariances: readonly number[];
  readonly variance: number;
}

function middleOf(
  counts: readonly number[],
  { size, effects, solve }: {
    readonly size: number;
    readonly effects: readonly number[];
    readonly solve: readonly (readonly number[])[];
  },
): Middle {
  const shares = counts.map((count) => count / size);
  const covariances = solve.map((row) => dot(row, shares));
  return { effect: dot(effects, shares), covariances, variance: dot(covariances, shares) };
}
