/** What pages say of a plan's steps: in the safe order, and never more daring than the readings. */
import { describe, expect, it } from 'vitest';
import { PlanSchema } from '#core/experiment/plan/plan.ts';
import { NO_EXPERIMENT, type ExperimentView } from '#core/experiment/view.ts';
import { changedSettings, labelOf, placeInPlan, repeatsOf } from '../../../web/model/experiment.ts';
import { stepWords } from '../../../web/model/step-words.ts';
import type { Stage } from '../../../web/model/stage.ts';
import { en } from '../../../web/words/en.ts';

const level = (value: number, unit: string) => ({ label: `${value}${unit}`, value });
const PLAN = PlanSchema.parse({
  question: 'Which blades give the most power?',
  factors: [
    { kind: 'angle', key: 'angle_deg', name: 'Blade angle', levels: [level(10, '°'), level(25, '°')] },
    { kind: 'blades', key: 'blades', name: 'Blades', levels: [level(2, ''), level(3, '')] },
  ],
  design: 'factorial',
  rounds: 2,
  order: 'listed',
  seed: 1,
});
const run = (id: string, levels: number[], status: 'done' | 'now' | 'open' | 'skipped') => {
  return { id, round: 1, group: null, levels, repeat: 1, isReference: false, isAgain: false, status, trialIds: [] };
};
const RUNS = [
  run('a', [0, 0], 'done'),
  run('b', [0, 1], 'now'),
  run('c', [1, 0], 'open'),
  run('d', [0, 1], 'open'),
  run('e', [0, 1], 'skipped'),
];
const at = (more: Partial<ExperimentView>): ExperimentView => {
  return { ...NO_EXPERIMENT, plan: PLAN, runs: RUNS, runId: 'b', nextRunId: 'c', ...more };
};
const said = (more: Partial<ExperimentView>, stage: Stage = 'waiting'): string | undefined =>
  stepWords(at(more), stage, en)?.lines.join(' ');

describe('a step of the plan', () => {
  it.each([
    ['stop-fan', 'Stop the fan.'],
    ['blades-stopping', 'Wait. Blades still turning.'],
    ['set-blades', 'Fit 3 blades.'],
    ['start-fan', 'Stand back. Start the fan.'],
    ['finished', 'All runs are done.'],
    ['no-plan', undefined],
  ] as const)('%s', (step, words) => {
    expect(said({ step })).toBe(words);
  });
  it('does not ask for the fan where there is wind already, nor to set anything', () => {
    const lines = (step: ExperimentView['step'], isWindy: boolean) =>
      stepWords(at({ step }), 'waiting', en, { isWindy, movesAlone: false })?.lines.join(' ');
    expect(lines('settling', true)).toBe('It does not turn yet.');
    expect(lines('settling', false)).toBe('Stand back. Start the fan.');
    expect(lines('stop-fan', true)).toBe('Stop the fan.');
  });
  it('waits for the fan, not for blades, where the rotor has not turned', () => {
    const lines = (step: ExperimentView['step'], stage: Stage) =>
      stepWords(at({ step }), stage, en, { isWindy: true, movesAlone: true })?.lines.join(' ');
    expect(lines('blades-stopping', 'waiting')).toBe('Wait. Wind still blowing.');
    expect(lines('set-blades', 'settling')).toBe('Wait. Wind still blowing.');
  });
  it('names all that has to be set when it is more than one thing', () => {
    expect(said({ step: 'set-blades', runId: 'a' })).toBe('Set up: 10°, 2.');
  });
  it.each(['moving', 'settling', 'hold', 'still', 'unsettled'] as const)(
    'nobody is told to set a blade while the readings say %s',
    (stage) => {
      expect(said({ step: 'set-blades' }, stage)).toBe('Wait. Blades still turning.');
    },
  );
  it('leaves the word to the readings while they settle, and to the link while it is gone', () => {
    expect(said({ step: 'settling' }, 'settling')).toBeUndefined();
    expect(said({ step: 'stop-fan' }, 'logged')).toBeUndefined();
    expect(said({ step: 'set-blades' }, 'unplugged')).toBeUndefined();
  });
  it('has the fan stopped before anything else when it blows on what no run asked for', () => {
    expect(said({ step: 'stop-fan' }, 'spinning-up')).toBe('Stop the fan.');
    expect(said({ step: 'stop-fan' }, 'disturbed')).toBe('Stop the fan.');
    expect(said({ step: 'stop-fan' }, 'running-down')).toBeUndefined();
    expect(said({ step: 'settling' }, 'spinning-up')).toBeUndefined();
  });
  it('asks a person to look where nothing hears the fan', () => {
    const below = (isWindHeard: boolean) => stepWords(at({ step: 'set-blades', isWindHeard }), 'waiting', en);
    expect(below(false)?.below.moving).toMatch(/is the fan off/);
    expect(below(true)?.below.moving).toMatch(/nothing may turn/);
  });
  it('says wait, and asks, before anything else', () => {
    expect(said({ step: 'settling', isWaiting: true }, 'settling')).toBe('Wait. Not logging.');
    const question = { kind: 'is-fan-on' } as const;
    expect(said({ step: 'settling', question })).toBe('Is the fan on?');
    expect(said({ step: 'settling', question: { kind: 'unassigned', trialId: 4 } })).toBe('Which run was this?');
  });
});

describe('runs of a plan', () => {
  it('are named by their levels', () => {
    expect(RUNS.slice(0, 2).map((one) => labelOf(PLAN, one))).toEqual(['10°, 2', '10°, 3']);
    const gone = { ...RUNS[0]!, levels: [-1, 0], lastWords: '88°, 2' };
    expect(labelOf(PLAN, gone)).toBe('88°, 2');
  });
  it('change what differs from the one done before', () => {
    const changed = RUNS.map((one) => changedSettings(at({}), one).map(({ level: { label } }) => label));
    expect(changed.slice(0, 3)).toEqual([['10°', '2'], ['3'], ['25°']]);
  });
  it('count among those of the same levels, those left out apart', () => {
    const [, second, , fourth] = RUNS;
    if (second === undefined || fourth === undefined) throw new Error('no runs');
    expect(repeatsOf(at({}), second)).toMatchObject({ at: 1, runs: { length: 2 } });
    expect(repeatsOf(at({}), fourth).at).toBe(2);
  });
});

it('the place in the plan is that of the run at work, and all once all are done', () => {
  expect(placeInPlan(at({}))).toEqual({ at: 2, done: 1, all: 4 });
  const runs = RUNS.map((one) => ({ ...one, status: one.status === 'skipped' ? one.status : ('done' as const) }));
  expect(placeInPlan(at({ runs, step: 'finished' }))).toEqual({ at: 0, done: 4, all: 4 });
});
