/** Which runs of a plan the rows of an imported table are. */
import type { ImportedTrial } from './row.ts';
import { factorsOf } from '../plan/factors.ts';
import type { Plan, Run } from '../plan/plan.ts';
import { partsOf, runIdOf } from '../plan/run-id.ts';

/**
 * For each trial the id of its run, each run taken once; null for a trial that no run is left for.
 * A run that the table names comes first; else a trial without a round takes the first that fits.
 * @param runs those without a trial yet, in their order
 */
export function runsForImport(
  trials: readonly ImportedTrial[],
  plan: Pick<Plan, 'factors'>,
  runs: readonly Run[],
): (string | null)[] {
  const free = runs
    .filter(({ id, isReference }) => !isReference && !trials.some((trial) => trial.run === id))
    .map((run) => ({ run, factors: factorsOf(plan, run) }));
  const named = trials.map(({ run: id }) => runs.find((run) => run.id === id)?.id ?? null);
  return trials.map(({ factors, round, group }, i) => {
    const own = named[i] ?? null;
    if (own !== null && named.indexOf(own) === i) return own;
    const place = free.findIndex(
      ({ run, factors: wanted }) =>
        (round === null || run.round === round) &&
        (group === null || run.group === group) &&
        Object.entries(wanted).every(([key, level]) => factors[key] === level),
    );
    return place < 0 ? null : (free.splice(place, 1)[0]?.run.id ?? null);
  });
}

/** The rows as those of one group, whatever they say: what another group's laptop has recorded. */
export function asOfGroup(rows: readonly ImportedTrial[], group: string): ImportedTrial[] {
  return rows.map((row) => {
    const parts = row.run === null ? null : partsOf(row.run);
    return { ...row, group, run: parts === null ? row.run : runIdOf({ ...parts, group }) };
  });
}
