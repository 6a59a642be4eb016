/** Which runs of a plan the rows of an imported table are. */
import type { ImportedTrial } from './row.ts';
import { factorsOf } from '../plan/factors.ts';
import type { Plan, Run } from '../plan/plan.ts';

/**
 * For each trial the id of its run, each run taken once; null for a trial that no run is left for.
 * A trial without a round takes the first run that fits.
 * @param runs those without a trial yet, in their order
 */
export function runsForImport(
  trials: readonly ImportedTrial[],
  plan: Pick<Plan, 'factors'>,
  runs: readonly Run[],
): (string | null)[] {
  const free = runs
    .filter(({ isReference }) => !isReference)
    .map((run) => ({ run, factors: factorsOf(plan, run) }));
  return trials.map(({ factors, round, group }) => {
    const place = free.findIndex(
      ({ run, factors: wanted }) =>
        (round === null || run.round === round) &&
        (group === null || run.group === group) &&
        Object.entries(wanted).every(([key, level]) => factors[key] === level),
    );
    return place < 0 ? null : (free.splice(place, 1)[0]?.run.id ?? null);
  });
}
