/**
 * From a plan to its runs, in the order in which they are to be done.
 *
 * A round holds every setting once and is a block in time. The order within it is random, so that
 * what drifts meanwhile is not taken for the effect of a level; that every level comes once a
 * round lets what differs between rounds be told from what differs between levels (R. A. Fisher,
 * The Design of Experiments, 1935; from memory).
 */
import { createRandom, shuffled } from '../../virtual-rig/random.ts';
import { settingOf } from './factors.ts';
import { MOST_ROUNDS, type Plan, type Run } from './plan.ts';
import { withReferences } from './references.ts';
import { runIdOf } from './run-id.ts';

/** All runs of a plan that has no obstacles. */
export function runsOf(plan: Plan): Run[] {
  return withReferences(plan, [], runsWithoutReferences(plan));
}

/** Rounds of the groups take turns: round 1 of the first, round 1 of the second, … */
export function runsWithoutReferences(plan: Plan): Run[] {
  const groups = plan.groups.length > 0 ? plan.groups : [null];
  return counting(plan.rounds).flatMap((round) =>
    groups.flatMap((group, place) => {
      const settings = settingsOf(plan);
      const stream = place * (MOST_ROUNDS + 1) + round;
      const order =
        plan.order === 'random' ? shuffled(createRandom(plan.seed, stream), settings) : settings;
      return order.flatMap((levels) => repeatsOf(plan, { round, group, levels }));
    }),
  );
}

function repeatsOf(plan: Plan, where: Pick<Run, 'round' | 'group' | 'levels'>): Run[] {
  const setting = settingOf(plan, where.levels);
  return counting(plan.repeats).map((repeat) => ({
    id: runIdOf({ ...where, setting, reference: 0, repeat, again: 0 }),
    ...where,
    repeat,
    isReference: false,
    isAgain: false,
  }));
}

/** The settings of one round: for each an index of the level of every factor, as listed. */
export function settingsOf({ design, factors }: Plan): number[][] {
  const bases = factors.map(({ baseLevel }) => baseLevel);
  const varied = (place: number): number[][] =>
    factors[place]?.levels.map((_, level) => bases.with(place, level)) ?? [];
  switch (design) {
    case 'single':
      return varied(0);
    case 'series':
      // All at their base level is a setting of every factor, and done once.
      return factors.flatMap((factor, place) =>
        varied(place).filter((levels) => place === 0 || levels[place] !== factor.baseLevel),
      );
    case 'factorial':
      return factors.reduce<number[][]>(
        (settings, { levels }) =>
          settings.flatMap((setting) => levels.map((_, level) => [...setting, level])),
        [[]],
      );
  }
}

/** How many runs a plan has, without making them: a slip of the finger may ask for millions. */
export function runCountOf(plan: Plan): number {
  const { design, factors, rounds, repeats, reference } = plan;
  const sizes = factors.map(({ levels }) => levels.length);
  const sum = sizes.reduce((total, size) => total + size, 0);
  const settings = {
    single: sizes[0] ?? 0,
    series: sum - (sizes.length - 1),
    factorial: sizes.reduce((product, size) => product * size, 1),
  }[design];
  const settingsOfGroup = settings * rounds;
  // A reference stands before so many settings as hold at least `every` runs, and at the end.
  const references =
    reference === null
      ? 0
      : Math.ceil(settingsOfGroup / Math.ceil(reference.every / repeats)) + 1;
  return Math.max(plan.groups.length, 1) * (settingsOfGroup * repeats + references);
}

function counting(count: number): number[] {
  return Array.from({ length: count }, (_, i) => i + 1);
}
