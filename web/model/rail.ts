/** The plan as a rail: a cell a run, in the order of the runs, round by round. */
import { levelWords } from '#core/experiment/plan/factors.ts';
import type { ExperimentView, RunView } from '#core/experiment/view.ts';

/** next: what comes once the trial just logged is done with; each has a form of its own. */
export type CellState = 'done' | 'now' | 'next' | 'open' | 'skipped';

export interface RailCell {
  readonly run: RunView;
  readonly label: string;
  readonly state: CellState;
  /** Its trial is the one just logged. */
  readonly isFresh: boolean;
}

export interface RailRound {
  readonly round: number;
  readonly group: string | null;
  readonly cells: readonly RailCell[];
}

/** Runs that stand together and belong to one round of one group. */
export function railOf(experiment: ExperimentView): readonly RailRound[] {
  const { plan, runs } = experiment;
  if (plan === null) return [];
  const rounds: { round: number; group: string | null; cells: RailCell[] }[] = [];
  const isOver = isRunOver(experiment);
  for (const run of runs) {
    const cell = {
      run,
      label: levelWords(plan, run),
      state: stateOf(experiment, run, isOver),
      isFresh: experiment.step === 'logged' && run.id === experiment.runId,
    };
    const { round, group } = run;
    const last = rounds.at(-1);
    if (last?.round === round && last.group === group) last.cells.push(cell);
    else rounds.push({ round, group, cells: [cell] });
  }
  return rounds;
}

/** Whether the run that the step is about has its trial, and the next one waits for the blades. */
function isRunOver({ step, runs, runId }: ExperimentView): boolean {
  return step === 'logged' || runs.find(({ id }) => id === runId)?.status !== 'now';
}

function stateOf(experiment: ExperimentView, run: RunView, isOver: boolean): CellState {
  const { step, runId, nextRunId } = experiment;
  if (run.status === 'skipped') return 'skipped';
  if (step === 'finished') return run.status === 'done' ? 'done' : 'open';
  if (!isOver && run.id === runId) return 'now';
  if (isOver && run.id === nextRunId) return 'next';
  return run.status === 'done' || (step === 'logged' && run.id === runId) ? 'done' : 'open';
}

/** The cell that the eye should find: what is at work or comes next; null when all is done. */
export function cellAtWork(rounds: readonly RailRound[]): RailCell | null {
  const cells = rounds.flatMap((round) => round.cells);
  return cells.find(({ state }) => state === 'now' || state === 'next') ?? null;
}
