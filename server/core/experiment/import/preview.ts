/** What the rows of a table will become, before anything is brought in. */
import type { Plan, Run } from '../plan/plan.ts';
import type { ShownTrial } from '../trial.ts';
import { presentRows } from './present.ts';
import type { ImportedTrial } from './row.ts';
import { runsForImport } from './runs-of-rows.ts';

export interface PreviewedRow {
  readonly row: ImportedTrial;
  /** The run that it will be of; null: none. */
  readonly runId: string | null;
  /** The trial that it is already; null: it is new. */
  readonly presentAs: number | null;
}

/** What the session has: its plan, the runs without a trial in their order, and its trials. */
export interface Session {
  readonly plan: Plan | null;
  readonly openRuns: readonly Run[];
  readonly trials: readonly ShownTrial[];
}

/** @param again rows that are here already are brought in too */
export function previewRows(
  rows: readonly ImportedTrial[],
  { plan, openRuns, trials }: Session,
  again: boolean,
): PreviewedRow[] {
  const present = presentRows(rows, trials);
  // Neither what is left out nor what is struck takes a run away from another row.
  const takesRun = rows.map(({ struck }, i) => !struck && (again || present[i] === null));
  const taking = rows.filter((_, i) => takesRun[i]);
  const runIds = plan === null ? [] : runsForImport(taking, plan, openRuns);
  return rows.map((row, i) => ({
    row,
    runId: takesRun[i] === true ? (runIds.shift() ?? null) : null,
    presentAs: present[i] ?? null,
  }));
}
