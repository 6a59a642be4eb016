/** A plan that is changed while it is carried out. */
import { levelWords, valueOf } from './factors.ts';
import type { Plan, Run } from './plan.ts';
import { withReferences } from './references.ts';
import { isSameSetting, partsOf } from './run-id.ts';
import { runsWithoutReferences } from './runs.ts';

/**
 * The runs from here on: what was done comes first, in the order in which it was done, also what
 * the new plan does not hold; then what the plan holds beyond it, round by round.
 * @param before the plan that it was done under
 */
export function carryOver(done: readonly Run[], plan: Plan, before: Plan): Run[] {
  const ids = new Set(done.map(({ id }) => id));
  const left = runsWithoutReferences(plan).filter(({ id }) => !ids.has(id));
  const first = left.filter((run) => isStillSet(run, done.at(-1)));
  const later = left.filter((run) => !first.includes(run));
  return [
    ...done.map((run) => inPlan(run, plan, before)),
    ...withReferences(plan, done, [...first, ...later]),
  ];
}

/** Repeats of what was done last come next, while the blades still stand so. */
function isStillSet(run: Run, last: Run | undefined): boolean {
  return last !== undefined && run.repeat > 1 && isSameSetting(run.id, last.id);
}

/** The run with its levels looked up in this plan, by what its id says of them. */
function inPlan({ lastWords, ...run }: Run, plan: Plan, before: Plan): Run {
  const setting = partsOf(run.id)?.setting ?? {};
  const levels = plan.factors.map(({ key, levels: all }) =>
    all.findIndex((level) => valueOf(level) === setting[key]),
  );
  if (!levels.includes(-1)) return { ...run, levels };
  return { ...run, levels, lastWords: lastWords ?? levelWords(before, run) };
}
