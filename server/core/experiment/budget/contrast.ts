/**
 * The uncertainty of what is worked out from several trials: the mean of a level, the difference
 * and the ratio of two. What trials have in common (a gain, a zero) moves them together: it counts
 * as often as it stands, with its sign, and only then are squares added (JCGM 100:2008 (GUM),
 * F.1.2.3, 5.2.2). So a common gain leaves a ratio alone and scales a difference, and a common zero
 * cancels in neither, as far as voltage and current differ.
 */
import { combine, MOST_DEGREES_OF_FREEDOM, type Component } from '../../metrology/combine.ts';
import { coverageFactor } from '../../metrology/coverage.ts';
import type { Budget } from './budget.ts';
import type { BudgetCause, BudgetRow } from './row.ts';

export interface ContrastRow {
  readonly cause: BudgetCause;
  readonly channel: BudgetRow['channel'];
  readonly distribution: BudgetRow['distribution'];
  readonly degreesOfFreedom: number;
  /** In W; of a ratio as a number. */
  readonly contribution: number;
  readonly share: number;
  readonly isCommon: boolean;
}

export interface Contrast {
  /** W; of a ratio a number. */
  readonly value: number;
  readonly standardUncertainty: number;
  readonly degreesOfFreedom: number;
  /** For 95 %. */
  readonly coverageFactor: number;
  readonly expandedUncertainty: number;
  /** What further trials would make smaller, and what they would not. */
  readonly random: number;
  readonly common: number;
  readonly gaps: Budget['gaps'];
  /** The largest first. */
  readonly rows: readonly ContrastRow[];
}

export interface Ratio extends Contrast {
  /** The 95 % interval by Fieller's theorem; not symmetric about the value. */
  readonly low: number;
  readonly high: number;
}

/** A level's mean power. @param level its trials, at least one */
export function meanOfLevel(level: readonly Budget[]): Contrast {
  return summed(meanValue(level), weighed(level, 1), level);
}

/** Mean power of level a less that of level b. Each has at least one trial. */
export function differenceOf(a: readonly Budget[], b: readonly Budget[]): Contrast {
  const parts = [...weighed(a, 1), ...weighed(b, -1)];
  return summed(meanValue(a) - meanValue(b), parts, [...a, ...b]);
}

/**
 * Mean power of level a over that of level b; null where b can't be told from nothing, and the ratio
 * could be anything. The interval is all the ratios θ for which a − θ·b can't be told from nothing
 * (E. C. Fieller, J. R. Statist. Soc. B 16 (1954) 175, from memory): right for a small b too.
 */
export function ratioOf(a: readonly Budget[], b: readonly Budget[]): Ratio | null {
  const [top, bottom] = [meanValue(a), meanValue(b)];
  const value = top / bottom;
  if (bottom === 0) return null;
  const parts = [...weighed(a, 1 / bottom), ...weighed(b, -value / bottom)];
  const linear = summed(value, parts, [...a, ...b]);
  const k2 = linear.coverageFactor ** 2;
  const [variance, covariance, below] = momentsOf(a, b);
  const square = bottom ** 2 - k2 * below;
  const half = top * bottom - k2 * covariance;
  const rest = half ** 2 - square * (top ** 2 - k2 * variance);
  if (square <= 0) return null;
  // Never less than nothing but by rounding: the ratio itself is always in the interval.
  const spread = Math.sqrt(Math.max(rest, 0));
  return { ...linear, low: (half - spread) / square, high: (half + spread) / square };
}

function meanValue(level: readonly Budget[]): number {
  return level.reduce((sum, { value_W }) => sum + value_W, 0) / level.length;
}

/** One row of one trial, with what the trial counts. */
interface Part {
  readonly row: BudgetRow;
  /** With its sign. */
  readonly contribution: number;
}

function weighed(level: readonly Budget[], weight: number): Part[] {
  const each = weight / level.length;
  return level.flatMap(({ rows }) =>
    rows.map((row) => ({ row, contribution: each * row.sensitivity * row.standardUncertainty })),
  );
}

/** u²(a), u(a, b) and u²(b) of two levels' means. */
function momentsOf(
  a: readonly Budget[],
  b: readonly Budget[],
): readonly [variance: number, covariance: number, below: number] {
  const of = (parts: readonly Part[]): number =>
    groupsOf(parts).reduce((sum, { contribution }) => sum + contribution ** 2, 0);
  const [ofA, ofB] = [weighed(a, 1), weighed(b, 1)];
  const [variance, below] = [of(ofA), of(ofB)];
  return [variance, (of([...ofA, ...ofB]) - variance - below) / 2, below];
}

/** What is common is added with its sign, what is not by squares. */
function groupsOf(parts: readonly Part[]): Omit<ContrastRow, 'share'>[] {
  const groups = new Map<string, Part[]>();
  for (const part of parts) {
    const { commonAs, cause, channel } = part.row;
    const key = commonAs ?? `alone ${cause} ${channel}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [part]);
    else group.push(part);
  }
  return [...groups.values()].map(groupRow);
}

function groupRow(group: readonly Part[]): Omit<ContrastRow, 'share'> {
  const { cause, channel, commonAs, distribution } = group[0]!.row;
  const about = { cause, channel, isCommon: commonAs !== null };
  if (commonAs !== null) {
    const contribution = group.reduce((sum, part) => sum + part.contribution, 0);
    return {
      ...about,
      distribution,
      degreesOfFreedom: MOST_DEGREES_OF_FREEDOM,
      contribution: Math.abs(contribution),
    };
  }
  const { u, degreesOfFreedom } = combine(
    group.map(({ row, contribution }): Component => {
      return { u: Math.abs(contribution), degreesOfFreedom: row.degreesOfFreedom };
    }),
  );
  // Several that do not depend on each other are no rectangle any more.
  const isOne = group.length === 1;
  return {
    ...about,
    distribution: isOne ? distribution : 'normal',
    degreesOfFreedom,
    contribution: u,
  };
}

function summed(value: number, parts: readonly Part[], budgets: readonly Budget[]): Contrast {
  const groups = groupsOf(parts);
  const { u, degreesOfFreedom } = combine(
    groups.map((row) => ({ u: row.contribution, degreesOfFreedom: row.degreesOfFreedom })),
  );
  const rows = groups
    .map((row): ContrastRow => ({ ...row, share: u > 0 ? (row.contribution / u) ** 2 : 0 }))
    .sort((a, b) => b.contribution - a.contribution);
  const rectangles = rows.filter(({ distribution }) => distribution === 'rectangular');
  const largestRectangle = rectangles[0]?.share ?? 0;
  const k = coverageFactor({ largestRectangle, degreesOfFreedom });
  const together = (isCommon: boolean): number =>
    Math.hypot(...rows.filter((row) => row.isCommon === isCommon).map((row) => row.contribution));
  return {
    value,
    standardUncertainty: u,
    degreesOfFreedom,
    coverageFactor: k,
    expandedUncertainty: k * u,
    random: together(false),
    common: together(true),
    gaps: [...new Set(budgets.flatMap(({ gaps }) => gaps))],
    rows,
  };
}
