/**
 * Two factors in every combination: the mean of each, and whether one changes what the other does.
 */
import { comparedOf, type Answer } from '../answer/answer.ts';
import { compare } from '../comparison/compare.ts';
import type { Comparison, LevelSummary } from '../comparison/comparison-schema.ts';
import type { Factor, Plan } from '../plan/plan.ts';

export interface TwoFactors {
  /** The first factor's levels are the rows, the second's the columns. */
  readonly first: Factor;
  readonly second: Factor;
  /** Null where a combination has no trial. */
  readonly cells: readonly (readonly (LevelSummary | null)[])[];
  /** Null where no combination was set twice. */
  readonly table: Comparison['twoFactor'];
}

/** Null for any other plan. */
export function twoFactorsOf(plan: Plan, { settings, comparison }: Answer): TwoFactors | null {
  const [first, second] = plan.factors;
  const areTwo = plan.design === 'factorial' && plan.factors.length === 2;
  if (!areTwo || first === undefined || second === undefined) return null;
  const trials = settings.map((setting) => ({
    ...comparedOf(setting),
    level: setting.seat.level,
    second: setting.seat.beside,
  }));
  const { twoFactor } = compare({ factor: first.key, response: 'power_W', looks: 'once', trials });
  const summaryAt = (level: number, beside: number): LevelSummary | null => {
    const key = settings.find(({ seat }) => seat.level === level && seat.beside === beside)?.level;
    return comparison.levels.find((one) => one.level === key) ?? null;
  };
  return {
    first,
    second,
    cells: first.levels.map((_, level) => {
      return second.levels.map((_, beside) => summaryAt(level, beside));
    }),
    table: twoFactor,
  };
}
