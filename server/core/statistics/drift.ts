/**
 * Has something crept during the experiment? What is left of each trial beside its level's mean,
 * over the order of the trials: a straight line (exact for any levels: both are taken about the
 * means of the levels), Spearman's rank correlation, which one wild reading can't sway, and von
 * Neumann's ratio of successive differences (Ann. Math. Stat. 12 (1941) 367, from memory): 2 for
 * independent errors, less when neighbours are alike.
 */
import { meanOf } from '../metrology/type-a/series.ts';
import { normalUpperTail } from './normal.ts';
import { ranksOf } from './ranks.ts';
import { studentTUpperTail } from './student-t.ts';

export interface Ordered {
  /** Place of its level among the levels. */
  readonly group: number;
  readonly order: number;
  readonly value: number;
}

export interface Drift {
  /** Change of the response with each step of the order. */
  readonly slope: number;
  readonly p: number;
  readonly rankCorrelation: number;
  readonly rankP: number;
  readonly successiveRatio: number;
  /** Small where neighbours in time are more alike than chance would have them. */
  readonly successiveP: number;
}

/** Null where it can't be told: fewer than four degrees of freedom, one order, or no scatter. */
export function drift(trials: readonly Ordered[]): Drift | null {
  const inOrder = [...trials].sort((one, other) => one.order - other.order);
  const groups = new Set(trials.map(({ group }) => group)).size;
  const freedom = trials.length - groups - 1;
  if (freedom < 4) return null;
  const values = aboutGroups(inOrder, ({ value }) => value);
  const orders = aboutGroups(inOrder, ({ order }) => order);
  const [yy, xx, xy] = [product(values, values), product(orders, orders), product(orders, values)];
  const scale = inOrder.reduce((most, { value }) => Math.max(most, Math.abs(value)), 0);
  if (!(xx > 0) || !(yy > 1e-24 * scale ** 2)) return null;
  const twoSided = (r: number): number => {
    const unexplained = Math.max(1 - r ** 2, 1e-16);
    return 2 * studentTUpperTail(Math.abs(r) * Math.sqrt(freedom / unexplained), freedom);
  };
  const [ranks, placeRanks] = [ranksOf(values), ranksOf(inOrder.map(({ order }) => order))];
  const rankCorrelation = correlation(ranks, placeRanks);
  const n = values.length;
  const successive = values.slice(1).map((value, i) => value - values[i]!);
  const successiveRatio = product(successive, successive) / yy;
  // Of independent errors about one mean: mean 2, variance 4(n − 2)/(n² − 1).
  const z = (2 - successiveRatio) / Math.sqrt((4 * (n - 2)) / (n ** 2 - 1));
  return {
    slope: xy / xx,
    p: twoSided(xy / Math.sqrt(xx * yy)),
    rankCorrelation,
    rankP: twoSided(rankCorrelation),
    successiveRatio,
    successiveP: normalUpperTail(z),
  };
}

function aboutGroups(trials: readonly Ordered[], of: (trial: Ordered) => number): number[] {
  const byGroup = new Map<number, number[]>();
  for (const trial of trials) {
    const values = byGroup.get(trial.group);
    if (values === undefined) byGroup.set(trial.group, [of(trial)]);
    else values.push(of(trial));
  }
  const means = new Map([...byGroup].map(([group, values]) => [group, meanOf(values)]));
  return trials.map((trial) => of(trial) - means.get(trial.group)!);
}

function product(one: readonly number[], other: readonly number[]): number {
  return one.reduce((sum, value, i) => sum + value * other[i]!, 0);
}

function correlation(one: readonly number[], other: readonly number[]): number {
  const [x, y] = [one, other].map((values) => {
    const mean = meanOf(values);
    return values.map((value) => value - mean);
  }) as [number[], number[]];
  return product(x, y) / Math.sqrt(product(x, x) * product(y, y));
}
