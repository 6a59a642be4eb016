/**
 * Reference runs: one setting that comes back again and again. It is the same each time, so what
 * its readings differ by, more than setting anew explains, is drift.
 */
import { settingOf } from './factors.ts';
import type { Plan, Run } from './plan.ts';
import { partsOf, runIdOf } from './run-id.ts';

/**
 * What is still to do, with the plan's reference runs: in each group one before every so many runs
 * and one at the group's end. A setting and its repeats are not torn apart.
 * @param done what was done before, which counts
 */
export function withReferences(plan: Plan, done: readonly Run[], left: readonly Run[]): Run[] {
  if (plan.reference === null) return [...left];
  const groups = plan.groups.length > 0 ? plan.groups : [null];
  const counters = new Map(groups.map((group) => [group, createCounter(plan, group, done)]));
  const lastLeft = new Map(left.map((run) => [run.group, run.id]));
  const closing = groups.filter((group) => !lastLeft.has(group));
  return [
    ...closing.flatMap((group) => counters.get(group)?.atEnd() ?? []),
    ...left.flatMap((run) => {
      const counter = counters.get(run.group);
      if (counter === undefined) return [run];
      const isLast = lastLeft.get(run.group) === run.id;
      return [...counter.before(run), run, ...(isLast ? counter.atEnd() : [])];
    }),
  ];
}

interface Counter {
  before(run: Run): Run[];
  atEnd(): Run[];
}

/** Counts one group's runs since its last reference run, beginning with those done. */
function createCounter(plan: Plan, group: string | null, done: readonly Run[]): Counter {
  const { every, levels } = plan.reference ?? { every: Infinity, levels: [] };
  /** Of reference runs, by round: the highest number so far. */
  const numbers = new Map<number, number>();
  let since = every;
  let round = 0;
  let isUsed = false;

  function count(run: Run): void {
    if (run.isReference) {
      const number = partsOf(run.id)?.reference ?? 0;
      numbers.set(run.round, Math.max(numbers.get(run.round) ?? 0, number));
      since = 0;
    } else {
      since += 1;
    }
    round = run.round;
    isUsed = true;
  }

  function next(inRound: number): Run {
    const reference = (numbers.get(inRound) ?? 0) + 1;
    const setting = settingOf(plan, levels);
    const where = { round: inRound, group, repeat: 1 };
    const id = runIdOf({ ...where, reference, setting, again: 0 });
    return { ...where, id, levels, isReference: true, isAgain: false };
  }

  for (const run of done) if (run.group === group) count(run);
  return {
    before(run) {
      const due = since >= every && run.repeat === 1 ? [next(run.round)] : [];
      for (const one of [...due, run]) count(one);
      return due;
    },
    atEnd: () => (isUsed && since > 0 ? [next(round)] : []),
  };
}
