/**
 * How many trials it takes to see a difference: power of the one-way F test (noncentral F with
 * λ = n·k·f²; J. Cohen, Statistical Power Analysis, 1988, from memory) and of the comparison of two
 * means (noncentral t with δ = d·√(n/2)).
 */
import { fUpperQuantile } from './f.ts';
import { ALPHA } from './groups.ts';
import { noncentralFUpperTail } from './noncentral-f.ts';
import { noncentralTUpperTail } from './noncentral-t.ts';
import { studentTQuantile } from './student-t.ts';
import { rootBetween } from './tail-root.ts';

const MOST_TRIALS = 1e5;

/**
 * Chance to see that k levels differ with n trials each.
 * @param effect standard deviation of the true level means over that of a trial
 */
export function anovaPower(groups: number, trials: number, effect: number): number {
  const freedom = { df1: groups - 1, df2: groups * (trials - 1) };
  const limit = fUpperQuantile(ALPHA, freedom);
  return noncentralFUpperTail(limit, freedom, groups * trials * effect ** 2);
}

/**
 * Chance to see that two levels differ, on the side where they do.
 * @param effect true difference over the standard deviation of a trial
 */
export function pairPower(trials: number, effect: number): number {
  const freedom = 2 * (trials - 1);
  const limit = -studentTQuantile(ALPHA / 2, freedom);
  return noncentralTUpperTail(limit, freedom, effect * Math.sqrt(trials / 2));
}

/**
 * Trials for each level, not rounded up, that reach the wanted power; null above 100 000.
 * @param powerOf rises with the number of trials
 */
export function trialsFor(powerOf: (trials: number) => number, wanted: number): number | null {
  const lacking = (trials: number): number => powerOf(trials) - wanted;
  const fewest = 1.01;
  if (lacking(fewest) >= 0) return fewest;
  let many = 2;
  while (lacking(many) < 0) {
    many *= 2;
    if (many > MOST_TRIALS) return null;
  }
  return rootBetween(lacking, Math.max(many / 2, fewest), many);
}
