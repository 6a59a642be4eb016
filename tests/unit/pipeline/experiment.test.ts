/** A plan that is led through by ear: which trial goes to which run, and what an operator says. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Command } from '#core/experiment/command.ts';
import { LedgerSchema } from '#core/experiment/conductor/ledger.ts';
import { experimentView } from '#core/experiment/conductor/view.ts';
import { PlanSchema, type Plan } from '#core/experiment/plan/plan.ts';
import { addressedTrial, addressOf, createBook } from '#core/experiment/trial-book.ts';
import type { Trial } from '#core/experiment/trial.ts';
import { ExperimentViewSchema } from '#core/experiment/view.ts';
import type { Input } from '#core/inputs.ts';
import { commandObstacle } from '#core/pipeline/command.ts';
import { begin, type PipelineState } from '#core/pipeline/state.ts';
import { step } from '#core/pipeline/step.ts';
import { freshHead } from '#core/recording.ts';
import { script } from '../../support/bench-script.ts';
import { keyIn } from '../../support/keyed-readings.ts';
import { ROTOR_AND_AIR } from '../../support/budgets.ts';

const PLAN: Plan = PlanSchema.parse({
  question: 'Which blade angle gives the most power?',
  factors: [
    {
      kind: 'angle',
      key: 'angle_deg',
      name: 'Blade angle',
      levels: [12, 26, 44].map((value) => ({ label: `${value}°`, value })),
    },
  ],
  design: 'single',
  rounds: 2,
  order: 'listed',
  seed: 1,
});
const RUNS = ['r1 angle_deg=12', 'r1 angle_deg=26', 'r1 angle_deg=44', 'r2 angle_deg=12'] as const;
const NO_WIND = 'voltage_V,current_A';

function after(inputs: readonly Input[], from = begin(freshHead('board'), 1)): PipelineState {
  return inputs.reduce((state, input) => step(state, input).state, from);
}
const viewOf = ({ conductor, book }: PipelineState) => experimentView(conductor, book.trials);
const runIdsOf = ({ book }: PipelineState) => book.trials.map(({ runId }) => runId);
/** The rig at rest with the plan given. */
const planned = (plan = PLAN) => script().open().level(0, 1).say({ say: 'plan', plan }).level(0, 5);
/** Fan on until logged, fan off until the blades stand. */
const visit = (bench: ReturnType<typeof script>, voltage_V: number) =>
  bench.level(voltage_V, 14).level(0, 14);

describe('a plan led through by ear', () => {
  it('asks for the blades only once the rig stands, and goes on by itself', () => {
    const bench = planned();
    expect(viewOf(after(bench.inputs))).toMatchObject({ step: 'set-blades', runId: RUNS[0] });
    bench.level(2.4, 4);
    expect(viewOf(after(bench.inputs))).toMatchObject({ step: 'settling', runId: RUNS[0] });
    bench.level(2.4, 10);
    expect(viewOf(after(bench.inputs))).toMatchObject({
      step: 'logged',
      runId: RUNS[0],
      nextRunId: RUNS[1],
    });
    bench.level(0, 1.5);
    expect(viewOf(after(bench.inputs)).step).toBe('blades-stopping');
    bench.level(0, 12);
    const state = after(bench.inputs);
    expect(viewOf(state)).toMatchObject({ step: 'set-blades', runId: RUNS[1], nextRunId: RUNS[2] });
    expect(state.book.trials).toMatchObject([{ runId: RUNS[0], factors: { angle_deg: 12 } }]);
  });

  it('ends when every run has its trial', () => {
    const bench = planned({ ...PLAN, rounds: 1 });
    for (const voltage_V of [2.4, 2.1, 1.7]) visit(bench, voltage_V);
    const state = after(bench.inputs);
    expect(viewOf(state).step).toBe('finished');
    expect(runIdsOf(state)).toEqual(RUNS.slice(0, 3));
    expect(viewOf(state).runId).toBe(RUNS[2]);
    // A restart hears nothing of the rig; no trial waits for a place all the same.
    const restarted = { ...state.conductor, onRigId: null };
    expect(experimentView(restarted, state.book.trials)).toMatchObject({
      step: 'finished',
      runId: RUNS[2],
      nextRunId: null,
    });
  });

  it('takes a rig that runs already for none of its runs, until it has been stopped', () => {
    const bench = script().open().level(2.4, 4).say({ say: 'plan', plan: PLAN }).level(2.4, 12);
    const state = after(bench.inputs);
    expect(viewOf(state).step).toBe('stop-fan');
    expect(runIdsOf(state)).toEqual([null]);
  });

  it('believes an operator that the rig is set, where no stop was heard', () => {
    const bench = script().open().level(2.4, 2).say({ say: 'plan', plan: PLAN });
    bench.say({ say: 'is-set' }).level(2.4, 14);
    expect(runIdsOf(after(bench.inputs))).toEqual([RUNS[0]]);
  });

  it('keeps a second plateau without a run, asks, and shifts nothing', () => {
    const bench = planned().level(2.4, 14).level(1.5, 14);
    const asking = after(bench.inputs);
    expect(runIdsOf(asking)).toEqual([RUNS[0], null]);
    expect(viewOf(asking)).toMatchObject({
      step: 'stop-fan',
      question: { kind: 'unassigned', trialId: 2 },
    });
    bench.level(0, 14);
    expect(viewOf(after(bench.inputs))).toMatchObject({
      step: 'set-blades',
      runId: RUNS[1],
      question: null,
    });
  });

  it('does not ask about a stretch that only goes on', () => {
    const bench = planned().level(2.4, 14).close('unplugged').skip(1).open().level(2.4, 14);
    const state = after(bench.inputs);
    expect(runIdsOf(state)).toEqual([RUNS[0], null]);
    expect(viewOf(state).question).toBeNull();
  });

  it('gives a run that was cut off its next plateau', () => {
    const bench = planned().level(2.4, 6).close('unplugged').skip(1).open().level(2.4, 16);
    const state = after(bench.inputs);
    expect(viewOf(state).runs[0]?.trialIds).toEqual([state.book.trials.at(-1)?.id]);
  });

  it('does not take a plateau for the run when the blades slipped before it was logged', () => {
    const bench = planned().level(2.4, 6.5).level(1.8, 14);
    const state = after(bench.inputs);
    expect(runIdsOf(state)).toEqual([null]);
    expect(viewOf(state).nextRunId).toBe(RUNS[0]);
  });

  it('takes it when power comes back to what it was, as after a knock', () => {
    const bench = planned().level(2.4, 6.5).level(1.2, 1.5).level(2.4, 16);
    expect(runIdsOf(after(bench.inputs))).toContain(RUNS[0]);
  });

  it('gives a run the outcome that the rotor did not turn', () => {
    const bench = planned().level(0, 14, 4).level(0, 14);
    const state = after(bench.inputs);
    expect(state.book.trials).toMatchObject([{ runId: RUNS[0], rotorStill: true }]);
    expect(viewOf(state).runId).toBe(RUNS[1]);
  });

  it('without an anemometer asks once whether the fan is on, and believes the answer', () => {
    const bench = script().open(NO_WIND).level(2, 6).level(0, 3).say({ say: 'plan', plan: PLAN });
    bench.level(0, 40);
    expect(viewOf(after(bench.inputs)).question).toEqual({ kind: 'is-fan-on' });
    const no = after(script().inputs.concat(bench.inputs));
    expect(no.conductor.askedAbout).toBe(RUNS[0]);
    bench.say({ say: 'fan-is-on', on: true });
    const state = after(bench.inputs);
    expect(state.book.trials.at(-1)).toMatchObject({
      runId: RUNS[0],
      rotorStill: true,
      basis: 'said',
      recorded: true,
    });
    expect(viewOf(state).question).toBeNull();
  });

  it('does not ask again after a no', () => {
    const bench = script().open(NO_WIND).level(2, 6).level(0, 3).say({ say: 'plan', plan: PLAN });
    bench.level(0, 40).say({ say: 'fan-is-on', on: false }).level(0, 60);
    expect(viewOf(after(bench.inputs)).question).toBeNull();
  });

  it('goes on where it was in the session’s next recording', () => {
    const first = after(visit(planned(), 2.4).inputs);
    const { ledger } = first.conductor;
    const head = { ...freshHead('board'), firstTrialId: 2, experiment: ledger };
    const second = begin(head, 2, createBook(first.book.trials));
    const state = after(visit(script().open().level(0, 5), 2.1).inputs, second);
    expect(runIdsOf(state)).toEqual([RUNS[0], RUNS[1]]);
  });
});

describe('what an operator says', () => {
  const strike = { kind: 'strike', recordingId: 1, reason: 'slipped' } as const;
  const act = (state: PipelineState, id: number, rest: object): Input => {
    const trial = state.book.trials.find((one) => one.id === id)!;
    const time_s = (trial.start_s + trial.end_s) / 2;
    const action = { recordingId: 1, time_s, ...rest } as Extract<
      Input,
      { kind: 'action' }
    >['action'];
    return { kind: 'action', at_s: 99, action };
  };
  const say = (state: PipelineState, command: Command) =>
    after([{ kind: 'command', at_s: 99, command }], state);

  it('a struck trial’s run is to be done again; undo gives it back', () => {
    let state = after(visit(planned(), 2.4).inputs);
    state = after([act(state, 1, strike)], state);
    expect(viewOf(state).runs[0]).toMatchObject({ id: RUNS[0], trialIds: [] });
    expect(viewOf(state).undoes).toMatchObject({ what: 'strike', trialId: 1 });
    state = say(state, { say: 'undo' });
    expect(viewOf(state).runs[0]).toMatchObject({ status: 'done', trialIds: [1] });
    expect(state.book.trials[0]).toMatchObject({ struck: false, strikeReason: null });
  });

  it('a moved trial carries the level of its new run', () => {
    let state = after(planned().level(2.4, 14).level(1.5, 14).inputs);
    state = after([act(state, 2, { kind: 'move', runId: RUNS[1] })], state);
    expect(state.book.trials[1]).toMatchObject({ runId: RUNS[1], factors: { angle_deg: 26 } });
    expect(viewOf(state).question).toBeNull();
    state = say(state, { say: 'undo' });
    expect(state.book.trials[1]).toMatchObject({ runId: null, factors: {} });
  });

  it('again adds a run like it, which comes next; skip leaves one out', () => {
    let state = after(visit(planned(), 2.4).inputs);
    state = say(state, { say: 'again', runId: RUNS[0] });
    const added = viewOf(state).runs[1];
    expect(added).toMatchObject({ id: `${RUNS[0]} again:1`, isAgain: true });
    state = say(state, { say: 'skip', runId: RUNS[1] });
    expect(viewOf(state).runs.find(({ id }) => id === RUNS[1])?.status).toBe('skipped');
    state = say(say(state, { say: 'undo' }), { say: 'undo' });
    expect(viewOf(state).runs).toHaveLength(6);
    expect(viewOf(state).runs.some(({ status }) => status === 'skipped')).toBe(false);
  });

  it('while told to wait it logs nothing, and then what is still steady', () => {
    const bench = planned().say({ say: 'wait' }).level(2.4, 20);
    expect(after(bench.inputs).book.trials).toEqual([]);
    bench.say({ say: 'go-on' }).level(2.4, 1);
    expect(runIdsOf(after(bench.inputs))).toEqual([RUNS[0]]);
    const over = planned().say({ say: 'wait' }).level(2.4, 20).level(0, 14);
    expect(after(over.inputs).book.trials).toEqual([]);
    visit(over.say({ say: 'go-on' }), 2.1);
    expect(runIdsOf(after(over.inputs))).toEqual([RUNS[0]]);
  });

  it('logs at once when told to, with the uncertainty that a creeping reading deserves', () => {
    const bench = planned().level(2.4, 4).say({ say: 'log-now' });
    const [trial] = after(bench.inputs).book.trials;
    expect(trial).toMatchObject({ runId: RUNS[0], basis: 'window', recorded: true });
    const { value, standardUncertainty } = trial!.power_W!;
    expect(standardUncertainty).toBeGreaterThan(0.05 * value);
  });

  it('a plan that is changed in the middle keeps what was done', () => {
    let state = after(visit(planned(), 2.4).inputs);
    const levels = [26, 60].map((value) => ({ label: `${value}°`, value }));
    const changed = PlanSchema.parse({ ...PLAN, factors: [{ ...PLAN.factors[0]!, levels }] });
    state = say(state, { say: 'plan', plan: changed });
    const { runs } = viewOf(state);
    expect(runs[0]).toMatchObject({ id: RUNS[0], status: 'done', trialIds: [1] });
    expect(runs).toHaveLength(5);
    expect(state.book.trials[0]?.factors).toEqual({ angle_deg: 12 });
  });

  it('a run that was wanted again is still wanted when the plan is changed', () => {
    let state = after(visit(planned(), 2.4).inputs);
    state = say(state, { say: 'again', runId: RUNS[0] });
    state = say(state, { say: 'plan', plan: { ...PLAN, rounds: 1 } });
    const { runs, nextRunId } = viewOf(state);
    expect(runs.map(({ id }) => id)).toEqual([
      RUNS[0],
      `${RUNS[0]} again:1`,
      RUNS[1],
      RUNS[2],
    ]);
    expect(nextRunId).toBe(`${RUNS[0]} again:1`);
  });

  it('a repeat leaves the blades as they are, but not when another level is on the rig', () => {
    let state = after(visit(planned({ ...PLAN, repeats: 2 }), 2.4).inputs);
    expect(viewOf(state)).toMatchObject({ step: 'start-fan', runId: `${RUNS[0]} repeat:2` });
    const bench = planned({ ...PLAN, repeats: 2 });
    state = after(bench.say({ say: 'skip', runId: RUNS[0] }).level(0, 5).inputs);
    expect(viewOf(state)).toMatchObject({ step: 'set-blades', runId: `${RUNS[0]} repeat:2` });
  });

  const halved = { say: 'correct', quantity: 'voltage_V', line: { gain: 0.5, offset: 0 } } as const;

  it('a corrected trial keeps what was measured beside it; undo brings it back', () => {
    let state = after(visit(planned(), 2.4).inputs);
    const [before] = state.book.trials;
    state = say(state, { ...halved, trials: [addressOf(before!)] });
    const [corrected] = state.book.trials;
    expect(corrected!.voltage_V!.value).toBe(0.5 * before!.voltage_V!.value);
    expect(corrected!.power_W!.value).toBeCloseTo(0.5 * before!.power_W!.value, 15);
    expect(corrected!.correction).toMatchObject({
      by: { voltage_V: { gain: 0.5, offset: 0 } },
      measured: { voltage_V: before!.voltage_V, power_W: before!.power_W },
    });
    expect(viewOf(state).undoes).toMatchObject({ what: 'correct', trialId: 1 });
    state = say(state, { say: 'undo' });
    expect(state.book.trials[0]).toEqual({ ...before, revision: before!.revision + 2 });
  });

  it('a trial that goes on is corrected in what it still becomes', () => {
    const bench = planned().level(2.4, 14);
    const plain = after([...bench.inputs]).book.trials[0]!;
    bench.say({ ...halved, trials: [addressOf(plain)] }).level(2.4, 4).level(0, 14);
    const [trial] = after(bench.inputs).book.trials;
    expect(trial?.state).toBe('final');
    const { measured } = trial!.correction!;
    expect(measured.voltage_V).not.toEqual(plain.voltage_V);
    expect(trial!.voltage_V!.value).toBe(0.5 * measured.voltage_V!.value);
  });

  it('a trial without what is to be corrected is named, and none is changed', () => {
    const state = after(visit(planned(), 2.4).inputs);
    const addresses = [addressOf(state.book.trials[0]!)];
    const wind = { say: 'correct', quantity: 'windSpeed_mps', line: halved.line } as const;
    const deaf = after(visit(script().open(NO_WIND).level(0, 5), 2.4).inputs);
    const windless = [addressOf(deaf.book.trials[0]!)];
    expect(commandObstacle(deaf, { ...wind, trials: windless })?.message).toContain('Trial 1 has no');
    expect(commandObstacle(state, { ...wind, trials: addresses })).toBeNull();
    const nowhere = [{ recordingId: 1, time_s: 1e6 }];
    expect(commandObstacle(state, { ...wind, trials: nowhere })?.message).toContain('No trial lies');
  });

  it('a level that was another one takes its runs and trials along, and undo brings all back', () => {
    let state = after(visit(visit(planned(), 2.4), 2.1).inputs);
    const before = viewOf(state);
    const to = { label: '28°', value: 28 };
    state = say(state, { say: 'relabel', factor: 'angle_deg', from: '26°', to });
    expect(state.book.trials[1]).toMatchObject({
      runId: 'r1 angle_deg=28',
      factors: { angle_deg: 28 },
    });
    expect(state.book.trials[0]).toMatchObject({ runId: RUNS[0], factors: { angle_deg: 12 } });
    const { plan, runs, runId } = viewOf(state);
    expect(plan?.factors[0]?.levels[1]).toEqual(to);
    expect(runs.map(({ id, trialIds }) => [id, trialIds.length])).toEqual([
      [RUNS[0], 1],
      ['r1 angle_deg=28', 1],
      [RUNS[2], 0],
      [RUNS[3], 0],
      ['r2 angle_deg=28', 0],
      ['r2 angle_deg=44', 0],
    ]);
    expect(runId).toBe(before.runId);
    state = say(state, { say: 'undo' });
    expect(viewOf(state)).toEqual(before);
    expect(state.book.trials[1]).toMatchObject({ runId: RUNS[1], factors: { angle_deg: 26 } });
  });

  it('a level can’t become one that there is already, nor one that no rig has', () => {
    const state = after(planned().inputs);
    const to = (value: number): Command => {
      return { say: 'relabel', factor: 'angle_deg', from: '26°', to: { label: `${value}°`, value } };
    };
    expect(commandObstacle(state, to(44))?.message).toContain('move the trials');
    expect(commandObstacle(state, to(95))?.message).toContain('from 0° (flat');
    expect(commandObstacle(state, { ...to(30), from: '27°' } as Command)?.message).toContain('no level "27°"');
    expect(commandObstacle(state, to(30))).toBeNull();
  });

  it('what can’t be done is refused in a sentence and changes nothing', () => {
    const state = after(planned().inputs);
    const result = step(state, {
      kind: 'command',
      at_s: 99,
      command: { say: 'skip', runId: 'r9 angle_deg=12' },
    });
    expect(result.events).toMatchObject([{ kind: 'notice', notice: { code: 'orphan-command' } }]);
    expect(viewOf(state).undoes).toMatchObject({ what: 'plan' });
  });
});

/** Anything that an operator, a meter, a table, a fan and a cable may do, in any order. */
const deeds = fc.array(
  fc.oneof(
    fc.record({ fan: fc.constantFrom(0, 0, 1.4, 1.9, 2.4), span_s: fc.constantFrom(1, 5, 12) }),
    fc.constant({ cable: true as const }),
    fc.record({
      say: fc.constantFrom<Command['say']>(
        'again', 'skip', 'unskip', 'take-up', 'is-set', 'log-now', 'average', 'wait', 'go-on',
        'fan-is-on', 'cover', 'reveal', 'predict', 'undo', 'leave-it', 'plan', 'key-in', 'bring-in',
        'correct', 'relabel', 'accept-finding',
        'rotor-and-air', 'fit-generator', 'fit-lamp',
      ),
      run: fc.nat(8),
    }),
    fc.record({ mark: fc.constantFrom('strike', 'restore', 'note', 'move'), trial: fc.nat(6), run: fc.nat(8) }),
  ),
  { maxLength: 14 },
);

const ROW = {
  line: 2,
  factors: { angle_deg: 12 },
  round: null,
  group: null,
  values: {
    voltage_V: null,
    current_A: null,
    power_W: { value: 0.1, standardUncertainty: null, degreesOfFreedom: 0 },
    windSpeed_mps: null,
    rotorSpeed_radps: null,
  },
  run: null,
  rotorStill: false,
  recorded: true,
  note: null,
  struck: false,
  strikeReason: null,
};

function commandOf(say: Command['say'], runId: string, trials: readonly Trial[]): Command {
  switch (say) {
    case 'correct': {
      const [first, ...others] = trials.map(addressOf);
      // Before there is a trial, one that is not there.
      const meant = [first ?? { recordingId: 9, time_s: 1 }, ...others];
      const line = { gain: 1 + (runId.length % 3) / 10, offset: (runId.length % 2) / 100 };
      return { say, trials: meant, quantity: 'voltage_V', line };
    }
    case 'accept-finding':
      return { say, kind: 'no-current', channel: 'current_A' };
    case 'relabel':
      return { say, factor: 'angle_deg', from: '26°', to: { label: '28°', value: 28 } };
    case 'plan':
      return { say, plan: { ...PLAN, rounds: 1 + (runId.length % 3) } };
    case 'predict':
      return { say, level: '26°', votes: 4 };
    case 'fan-is-on':
      return { say, on: true };
    case 'fit-generator': {
      const steps = [[150, 0.02], [90, 0.07 + runId.length / 1000]].map(([rotorSpeed_radps, current_A]) => {
        return { rotorSpeed_radps: rotorSpeed_radps!, current_A: current_A!, voltage_V: 0.02 * rotorSpeed_radps! - 10 * current_A! };
      });
      // Where the speed was free to fall, nothing is known: refused.
      return { say, readings: { speed: runId.length % 3 === 0 ? 'free' : 'read', steps } };
    }
    case 'fit-lamp':
      return { say, readings: runId.length % 2 === 0 ? null : { steps: [{ voltage_V: 1, current_A: 0.1 }, { voltage_V: 2, current_A: 0.15 }] } };
    case 'rotor-and-air':
      return { say, described: { ...ROTOR_AND_AIR, hubRadius_m: runId.length / 1000 } };
    case 'key-in':
      return runId.length % 2 === 0 ? keyIn(runId, [[2.31, 0.0431], [2.3, 0.0429]]) : keyIn(null, []);
    case 'bring-in':
      return { say, name: '', rows: [{ ...ROW, runId }, { ...ROW, line: 3, runId: null }], again: true };
    case 'again':
    case 'skip':
    case 'unskip':
    case 'take-up':
      return { say, runId };
    default:
      return { say };
  }
}

describe('what a person has logged', () => {
  it('is in no other trial, and each is marked by itself', () => {
    const bench = planned().say({ say: 'average' });
    const once = after(bench.inputs);
    expect(commandObstacle(once, { say: 'log-now' })).toMatchObject({ about: ['too-little'] });
    const twice = after(bench.level(0, 4).say({ say: 'average' }).inputs);
    const [first, second] = twice.book.trials;
    expect(second!.start_s).toBeGreaterThanOrEqual(first!.end_s - 1e-4);
    expect(addressedTrial(twice.book, addressOf(second!))!.id).toBe(2);
  });

  it('is told from a steady stretch that reaches back into it', () => {
    const { book } = after(planned().say({ say: 'average' }).level(2.4, 14).inputs);
    const [first, second] = book.trials;
    const apart = { ...second!, start_s: first!.start_s + 0.5, end_s: second!.end_s };
    book.trials[1] = apart;
    expect(addressedTrial(book, addressOf(first!))!.id).toBe(1);
    expect(addressedTrial(book, addressOf(apart))!.id).toBe(2);
    const within = { ...second!, start_s: first!.start_s + 0.1, end_s: first!.end_s };
    book.trials[1] = within;
    expect(addressedTrial(book, addressOf(within))!.id).toBe(2);
  });
});

describe('any order of deeds', () => {
  it('keeps every trial, shows a view that fits its schema, and derives the same again', () => {
    fc.assert(
      fc.property(deeds, (all) => {
        const bench = planned();
        let state = after(bench.inputs);
        let fed = bench.inputs.length;
        const catchUp = (): void => {
          const seen = state.book.trials.length;
          state = after(bench.inputs.slice(fed), state);
          fed = bench.inputs.length;
          expect(state.book.trials.length).toBeGreaterThanOrEqual(seen);
        };
        for (const deed of all) {
          const runs = state.conductor.ledger.runs;
          const runId = runs['run' in deed ? deed.run % Math.max(runs.length, 1) : 0]?.id ?? 'r1';
          if ('fan' in deed) bench.level(deed.fan, deed.span_s);
          else if ('cable' in deed) bench.close('unplugged').skip(1).open();
          else if ('say' in deed) bench.say(commandOf(deed.say, runId, state.book.trials));
          else {
            const trial = state.book.trials[deed.trial];
            if (trial === undefined) continue;
            const marks = { reason: 'r', text: 't', runId: deed.run === 0 ? null : runId };
            const action = { kind: deed.mark, ...addressOf(trial), ...marks } as never;
            bench.inputs.push({ kind: 'action', at_s: bench.now(), action });
          }
          catchUp();
          const marked = 'mark' in deed ? state.book.trials[deed.trial] : undefined;
          if (marked !== undefined && 'mark' in deed && deed.mark === 'note') expect(marked.note).toBe('t');
          const view = viewOf(state);
          ExperimentViewSchema.parse(view);
          const given = view.runs.flatMap(({ trialIds }) => trialIds);
          expect(new Set(given).size).toBe(given.length);
          expect(new Set(view.runs.map(({ id }) => id)).size).toBe(view.runs.length);
        }
        LedgerSchema.parse(JSON.parse(JSON.stringify(state.conductor.ledger)));
        expect(state.book.trials.map(({ id }) => id)).toEqual(state.book.trials.map((_, i) => i + 1));
        const again = after(bench.inputs);
        expect(again.book.trials).toEqual(state.book.trials);
        expect(viewOf(again)).toEqual(viewOf(state));
      }),
      { numRuns: 60 },
    );
  });
});
