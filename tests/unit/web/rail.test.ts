import { describe, expect, it } from 'vitest';
import { anglePlan } from '#core/experiment/plan/templates.ts';
import { runsOf } from '#core/experiment/plan/runs.ts';
import { NO_EXPERIMENT, type ExperimentView } from '#core/experiment/view.ts';
import { cellAtWork, railOf } from '../../../web/model/rail.ts';

const PLAN = anglePlan(4);

/** Of the first six runs. */
const STATUS = ['done', 'done', 'done', 'now', 'open', 'skipped'] as const;

function view(more: Partial<ExperimentView> = {}, plan = PLAN): ExperimentView {
  const runs = runsOf(plan).map((run, i) => ({
    ...run,
    status: STATUS[i] ?? ('open' as const),
    trialIds: i < 3 ? [i + 1] : [],
  }));
  return { ...NO_EXPERIMENT, plan, runs, step: 'settling', runId: runs[3]?.id ?? null, ...more };
}

describe('the rail', () => {
  it('has a cell a run, in rounds', () => {
    const rounds = railOf(view());
    expect(rounds.map(({ round, cells }) => [round, cells.length])).toEqual([[1, 5], [2, 5], [3, 5]]);
    expect(rounds[0]?.cells.map(({ state }) => state)).toEqual(['done', 'done', 'done', 'now', 'open']);
    expect(rounds[1]?.cells[0]?.state).toBe('skipped');
  });

  it('once logged: the run is done, and the next one is next', () => {
    const at = view();
    const [logged, next] = [at.runs[2]?.id ?? null, at.runs[3]?.id ?? null];
    const rounds = railOf(view({ step: 'logged', runId: logged, nextRunId: next }));
    expect(rounds[0]?.cells.map(({ state }) => state)).toEqual(['done', 'done', 'done', 'next', 'open']);
    expect(rounds[0]?.cells.map(({ isFresh }) => isFresh)).toEqual([false, false, true, false, false]);
    expect(cellAtWork(rounds)?.run.id).toBe(next);
  });

  it('while the blades of a run that has its trial still turn, the next one is next', () => {
    const at = view();
    const [over, next] = [at.runs[2]?.id ?? null, at.runs[3]?.id ?? null];
    const rounds = railOf(view({ step: 'blades-stopping', runId: over, nextRunId: next }));
    expect(rounds[0]?.cells.map(({ state }) => state)).toEqual(['done', 'done', 'done', 'next', 'open']);
  });

  it('when all is done, nothing is now', () => {
    const rounds = railOf(view({ step: 'finished', runId: view().runs[2]?.id ?? null }));
    expect(cellAtWork(rounds)).toBeNull();
  });

  it('parts the rounds of groups', () => {
    const rounds = railOf(view({}, { ...PLAN, groups: ['red', 'blue'], rounds: 1 }));
    expect(rounds.map(({ round, group }) => [round, group])).toEqual([[1, 'red'], [1, 'blue']]);
  });

  it('is empty without a plan', () => {
    expect(railOf(NO_EXPERIMENT)).toEqual([]);
  });
});
