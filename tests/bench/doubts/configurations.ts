/** Experiments whose truth is known: the plan, and how the rig scatters about it. */
import { anglePlan } from '#core/experiment/plan/templates.ts';
import { PlanSchema, type Plan } from '#core/experiment/plan/plan.ts';
import { chance, normal, type Random } from '#core/virtual-rig/random.ts';

/** Standard deviate of a law: mean 0, standard deviation about 1. */
type Law = (random: Random) => number;

const student5: Law = (random) => {
  const squares = [0, 0, 0, 0, 0].reduce((sum) => sum + normal(random) ** 2, 0);
  // Student's t with 5 degrees of freedom has variance 5/3.
  return normal(random) / Math.sqrt(squares / 5) / Math.sqrt(5 / 3);
};
/** One in twenty scatters three times as much. */
const mixed: Law = (random) => normal(random) * (chance(random, 0.05) ? 3 : 1);

export interface Configuration {
  readonly name: string;
  readonly plan: Plan;
  /** True power of each level, W. */
  readonly powers: readonly number[];
  readonly law: Law;
  /** Standard deviation of setting anew, as a share of the power, for each level. */
  readonly scatters: readonly number[];
  /** By what a round as a whole differs from the others, as a share. */
  readonly rounds: number;
  /** Standard deviation of the wind's mean from trial to trial, as a share. */
  readonly wind: number;
}

function experiment(levels: number, rounds: number): Pick<Configuration, 'plan' | 'powers'> {
  const angles = [8, 20, 35, 50, 70, 80].slice(0, levels);
  const plan = anglePlan(1);
  const factor = {
    ...plan.factors[0]!,
    levels: angles.map((value) => ({ label: `${value}°`, value })),
  };
  const reference = { levels: [1], every: levels };
  return {
    plan: PlanSchema.parse({ ...plan, factors: [factor], rounds, reference }),
    powers: [0.2, 0.31, 0.27, 0.19, 0.11, 0.07].slice(0, levels),
  };
}

const even = (levels: number, share: number): number[] => Array.from({ length: levels }, () => share);
const BASE = { ...experiment(5, 3), law: normal, scatters: even(5, 0.03), rounds: 0, wind: 0.01 };

export const CONFIGURATIONS: readonly Configuration[] = [
  { ...BASE, name: '5 levels, 3 rounds, scatter 1 %', scatters: even(5, 0.01) },
  { ...BASE, name: '5 levels, 3 rounds, scatter 3 %' },
  { ...BASE, name: '5 levels, 3 rounds, scatter 8 %', scatters: even(5, 0.08), wind: 0.03 },
  { ...BASE, ...experiment(3, 5), scatters: even(3, 0.03), name: '3 levels, 5 rounds, scatter 3 %' },
  { ...BASE, ...experiment(6, 3), scatters: even(6, 0.03), name: '6 levels, 3 rounds, scatter 3 %' },
  { ...BASE, ...experiment(5, 6), name: '5 levels, 6 rounds, scatter 3 %' },
  { ...BASE, name: 'heavy tails (t, 5 degrees of freedom)', law: student5 },
  { ...BASE, name: 'one in 20 scatters three times as much', law: mixed },
  { ...BASE, name: 'scatter 2 to 6 % by level', scatters: [0.06, 0.02, 0.02, 0.04, 0.06] },
  { ...BASE, name: 'rounds differ by 3 %', rounds: 0.03 },
];
