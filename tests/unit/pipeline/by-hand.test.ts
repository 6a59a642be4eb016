/** Trials that no board has read: keyed in, and brought in with a table. */
import { describe, expect, it } from 'vitest';
import type { Command } from '#core/experiment/command.ts';
import { experimentView } from '#core/experiment/conductor/view.ts';
import { importTrials } from '#core/experiment/import/import-trials.ts';
import { runsForImport } from '#core/experiment/import/runs-of-rows.ts';
import { openRuns } from '#core/experiment/conductor/ledger.ts';
import { anglePlan } from '#core/experiment/plan/templates.ts';
import { PlanSchema } from '#core/experiment/plan/plan.ts';
import { addressOf } from '#core/experiment/trial-book.ts';
import { TrialSchema } from '#core/experiment/trial.ts';
import { expandedUncertainty } from '#core/metrology/format.ts';
import type { Action, Input } from '#core/inputs.ts';
import { commandObstacle } from '#core/pipeline/command.ts';
import { begin, type PipelineState } from '#core/pipeline/state.ts';
import { step } from '#core/pipeline/step.ts';
import { freshHead } from '#core/recording.ts';
import { script } from '../../support/bench-script.ts';
import { keyIn, METERS } from '../../support/keyed-readings.ts';

const PLAN = PlanSchema.parse({ ...anglePlan(1), order: 'listed', rounds: 1 });
const RUNS = PLAN.factors[0]!.levels.map(({ value }) => `r1 angle_deg=${value}`);

/** What a person says, one thing after the other, where no board is. */
function bench() {
  let at_s = 0;
  const inputs: Input[] = [];
  let state = begin(freshHead('board'), 1);
  const take = (input: Input): void => {
    inputs.push(input);
    state = step(state, input).state;
  };
  return {
    inputs,
    state: () => state,
    trials: () => state.book.trials,
    view: () => experimentView(state.conductor, state.book.trials, true),
    refusal: (command: Command) => commandObstacle(state, command)?.message ?? null,
    say(command: Command) {
      at_s += 1;
      take({ kind: 'command', at_s, command });
    },
    act(id: number, rest: { kind: 'strike'; reason: string } | { kind: 'note'; text: string } | { kind: 'move'; runId: string | null }) {
      const trial = state.book.trials.find((one) => one.id === id)!;
      take({ kind: 'action', at_s: at_s + 0.5, action: { ...rest, ...addressOf(trial) } as Action });
    },
  };
}

function rowsOf(text: string, state: PipelineState): Extract<Command, { say: 'bring-in' }> {
  const { ledger } = state.conductor;
  const { trials } = importTrials(text, ledger.plan);
  const runIds =
    ledger.plan === null
      ? trials.map(() => null)
      : runsForImport(trials, ledger.plan, openRuns(ledger, state.book.trials));
  const rows = trials.map((trial, i) => ({ ...trial, runId: runIds[i] ?? null }));
  return { say: 'bring-in', name: 'class.csv', rows, again: false };
}

const TABLE = [
  'angle_deg,voltage_V,current_mA,u_voltage_V,u_current_mA,note,struck',
  '8,1.20,20.0,0.01,0.2,,',
  '20,2.31,43.1,,,window open,',
  '20,9.99,43.1,0.01,0.2,,1',
].join('\n');

describe('keyed in without a board', () => {
  it('is a trial of its run, and the plan moves on by itself', () => {
    const { say, trials, view, state } = bench();
    say({ say: 'plan', plan: PLAN });
    expect(view()).toMatchObject({ step: 'read-meters', runId: RUNS[0], nextRunId: RUNS[1] });
    say(keyIn(RUNS[0]!, [[2.31, 0.0431], [2.33, 0.0433], [2.3, 0.0429]]));
    expect(trials()).toMatchObject([
      {
        id: 1,
        revision: 1,
        state: 'final',
        recorded: true,
        basis: 'keyed',
        origin: 'keyed',
        simulated: false,
        sampleCount: 3,
        runId: RUNS[0],
        factors: { angle_deg: PLAN.factors[0]!.levels[0]!.value },
      },
    ]);
    expect(view()).toMatchObject({ step: 'read-meters', runId: RUNS[1], meters: METERS });
    expect(view().runs[0]).toMatchObject({ status: 'done', trialIds: [1] });
    for (const runId of RUNS.slice(1)) say(keyIn(runId, [[1, 0.02]]));
    expect(view()).toMatchObject({ step: 'finished', runId: RUNS.at(-1), nextRunId: null });
    // Beside a board: what stands there is what was keyed in last, not what the board heard last.
    const beside = experimentView({ ...state().conductor, onRigId: RUNS[0]! }, trials());
    expect(beside.runId).toBe(RUNS.at(-1));
  });

  it('without a plan is a trial without a run', () => {
    const { say, trials, view } = bench();
    say(keyIn(null, [[2.31, 0.0431]]));
    say(keyIn(null, [[2.31, 0.0431]]));
    expect(trials().map(({ id, runId, factors }) => ({ id, runId, factors }))).toEqual([
      { id: 1, runId: null, factors: {} },
      { id: 2, runId: null, factors: {} },
    ]);
    expect(view().step).toBe('no-plan');
  });

  it('can be struck, noted and moved, each trial by itself though keyed at one time', () => {
    const { say, act, trials, view } = bench();
    say({ say: 'plan', plan: PLAN });
    say(keyIn(RUNS[0]!, [[2.31, 0.0431]]));
    say(keyIn(RUNS[1]!, [[2.01, 0.0401]]));
    act(2, { kind: 'note', text: 'lamp flickered' });
    act(1, { kind: 'move', runId: RUNS[2]! });
    expect(trials()).toMatchObject([{ runId: RUNS[2], note: null }, { runId: RUNS[1], note: 'lamp flickered' }]);
    act(2, { kind: 'strike', reason: 'wrong range' });
    expect(trials()[1]).toMatchObject({ struck: true, strikeReason: 'wrong range' });
    expect(view().runId).toBe(RUNS[0]);
    for (let i = 0; i < 3; i++) say({ say: 'undo' });
    expect(trials()).toMatchObject([{ runId: RUNS[0], struck: false }, { runId: RUNS[1], struck: false, note: null }]);
    expect(view().undoes).toMatchObject({ what: 'key-in', trialId: 2 });
    say({ say: 'undo' });
    expect(trials()[1]).toMatchObject({ struck: true, strikeReason: 'Taken back.' });
    expect(view()).toMatchObject({ runId: RUNS[1], meters: METERS });
  });

  it('again and another run first are followed', () => {
    const { say, view } = bench();
    say({ say: 'plan', plan: PLAN });
    say({ say: 'take-up', runId: RUNS[2]! });
    expect(view().runId).toBe(RUNS[2]);
    say(keyIn(RUNS[2]!, [[2.31, 0.0431]]));
    expect(view().runId).toBe(RUNS[0]);
    say({ say: 'again', runId: RUNS[2]! });
    expect(view().runId).toBe(`${RUNS[2]} again:1`);
  });

  it('is refused for a run that is not there, twice the same, beyond the range, or empty', () => {
    const { say, refusal, trials } = bench();
    say({ say: 'plan', plan: PLAN });
    expect(refusal(keyIn('r9 angle_deg=8', [[1, 0.02]]))).toContain('no run "r9 angle_deg=8"');
    say(keyIn(RUNS[0]!, [[2.31, 0.0431]]));
    expect(refusal(keyIn(RUNS[0]!, [[2.31, 0.0431]]))).toContain('already, as trial 1');
    expect(refusal(keyIn(RUNS[0]!, [[2.32, 0.0431]]))).toBeNull();
    expect(refusal(keyIn(RUNS[1]!, [[20.5, 0.0431]]))).toContain('more than its meter shows');
    expect(refusal(keyIn(RUNS[1]!, []))).toContain('no reading');
    say(keyIn(RUNS[1]!, []));
    expect(trials()).toHaveLength(1);
  });

  it('“did not turn” needs no readings, and is nothing to the meters’ limits', () => {
    const { say, trials } = bench();
    say({ ...keyIn(null, []), didNotTurn: true });
    say({ ...keyIn(null, [[0.02, 0]]), didNotTurn: true });
    const [said, read] = trials();
    expect(said).toMatchObject({ rotorStill: true, sampleCount: 0, power_W: { value: 0 } });
    // ±2 counts of 0.01 V as a rectangle (GUM 4.3.7).
    expect(said?.voltage_V?.standardUncertainty).toBeCloseTo(0.02 / Math.sqrt(3), 12);
    expect(read).toMatchObject({ rotorStill: true, sampleCount: 1, voltage_V: { value: 0.02 } });
  });

  it('is never mixed with a simulated rig, nor with a file that is replayed', () => {
    for (const origin of ['simulated', 'imported'] as const) {
      const state = begin(freshHead(origin), 1);
      expect(commandObstacle(state, keyIn(null, [[1, 0.02]]))?.message).toContain('No board: two meters');
      step(state, { kind: 'command', at_s: 1, command: keyIn(null, [[1, 0.02]]) });
      expect(state.book.trials).toEqual([]);
    }
  });
});

describe('keyed in beside a board', () => {
  it('for the run at work: what the board hears from there on goes to no other run', () => {
    const built = script().open().level(0, 1).say({ say: 'plan', plan: PLAN }).level(0, 5).level(2.4, 2);
    built.say(keyIn(RUNS[0]!, [[2.4, 0.12]])).level(2.4, 14);
    const state = built.inputs.reduce((one, input) => step(one, input).state, begin(freshHead('board'), 1));
    expect(state.book.trials.map(({ origin, runId }) => [origin, runId])).toEqual([
      ['keyed', RUNS[0]],
      ['board', null],
    ]);
    const view = experimentView(state.conductor, state.book.trials);
    expect(view).toMatchObject({ step: 'logged', nextRunId: RUNS[1], question: null });
    built.level(0, 14);
    const later = built.inputs.reduce((one, input) => step(one, input).state, begin(freshHead('board'), 1));
    expect(experimentView(later.conductor, later.book.trials)).toMatchObject({ step: 'set-blades', runId: RUNS[1] });
  });

  it('its marks don’t reach the board’s trial that lies over the same moment', () => {
    const built = script().open().level(0, 1).level(2.4, 10).say(keyIn(null, [[2.4, 0.12]])).level(2.4, 6).level(0, 6);
    let state = built.inputs.reduce((one, input) => step(one, input).state, begin(freshHead('board'), 1));
    const keyed = state.book.trials.find(({ origin }) => origin === 'keyed')!;
    const board = state.book.trials.find(({ origin }) => origin === 'board')!;
    expect(board.start_s < keyed.start_s && keyed.end_s < board.end_s).toBe(true);
    const strike = { kind: 'strike', reason: '', ...addressOf(keyed) } as const;
    state = step(state, { kind: 'action', at_s: 99, action: strike }).state;
    expect(state.book.trials.filter(({ struck }) => struck).map(({ id }) => id)).toEqual([keyed.id]);
  });
});

describe('a table that is brought in', () => {
  it('gives each row its run, and what is not known of ± is not known', () => {
    const { say, state, trials, view } = bench();
    say({ say: 'plan', plan: PlanSchema.parse({ ...PLAN, rounds: 2 }) });
    say(rowsOf(TABLE, state()));
    expect(trials()).toMatchObject([
      { origin: 'imported', basis: 'imported', runId: 'r1 angle_deg=8', factors: { angle_deg: 8 } },
      { runId: 'r1 angle_deg=20', note: 'window open', struck: false },
      { struck: true, factors: { angle_deg: 20 } },
    ]);
    const [known, unknown] = trials();
    expect(expandedUncertainty(known!.power_W!)).toBeGreaterThan(0);
    expect(unknown!.power_W).toMatchObject({ standardUncertainty: null, degreesOfFreedom: 0 });
    for (const trial of trials()) TrialSchema.parse(JSON.parse(JSON.stringify(trial)));
    expect(view().undoes).toMatchObject({ what: 'bring-in', trialId: null });
  });

  it('is taken back as a whole, and can be brought in anew then', () => {
    const { say, state, trials, refusal } = bench();
    const table = rowsOf(TABLE, state());
    say(table);
    expect(refusal(table)).toContain('here already, for instance as trial 1');
    expect(refusal({ ...table, again: true })).toBeNull();
    say({ say: 'undo' });
    expect(trials().map(({ struck }) => struck)).toEqual([true, true, true]);
    const unstruck = table.rows.filter(({ struck }) => !struck);
    expect(refusal({ ...table, rows: unstruck })).toBeNull();
  });

  it('is refused where the plan has changed since it was looked at', () => {
    const { say, state, refusal } = bench();
    say({ say: 'plan', plan: PLAN });
    const table = rowsOf(TABLE, state());
    say({ say: 'plan', plan: null });
    expect(refusal(table)).toContain('changed meanwhile');
  });
});

describe('derived again', () => {
  it('from the same inputs is the same', () => {
    const { say, act, state, inputs, trials } = bench();
    say({ say: 'plan', plan: PLAN });
    say(keyIn(RUNS[0]!, [[2.31, 0.0431], [2.3, 0.043]]));
    say(rowsOf(TABLE, state()));
    act(3, { kind: 'strike', reason: 'x' });
    say({ say: 'undo' });
    const again = inputs.reduce((one, input) => step(one, input).state, begin(freshHead('board'), 1));
    expect(again.book.trials).toEqual(trials());
  });
});
