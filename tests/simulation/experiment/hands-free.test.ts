/**
 * A whole experiment, five levels in three rounds, with nobody at the page: the virtual rig's
 * operator does what the tool says, and has a slip, a bump, a cable pulled out and a run for which
 * the fan was never stopped. What the rig truly did tells whether the tool is right.
 */
import { describe, expect, it } from 'vitest';
import { step } from '#core/pipeline/step.ts';
import { begin } from '#core/pipeline/state.ts';
import { freshHead } from '#core/recording.ts';
import { anglePlan } from '#core/experiment/plan/templates.ts';
import type { Trial } from '#core/experiment/trial.ts';
import { isRight, trueAngle_deg, truePower_W, truthOf } from '#core/virtual-rig/truth.ts';
import { playExperiment, type Played } from '../../support/played-experiment.ts';

/** How often intervals miss over many seeds is told by `npm run bench:played`. */
const SEEDS = [1, 2, 3, 4];
const played = new Map<number, Played>();
const play = (seed: number): Played => {
  const done = played.get(seed) ?? playExperiment(seed, anglePlan(seed));
  played.set(seed, done);
  return done;
};

describe.each(SEEDS)('an experiment played without a touch of the page, seed %i', (seed) => {
  it('had its four mishaps', () => {
    const { led } = play(seed).demo;
    expect([...led.had].sort()).toEqual([...led.mishaps.keys()].sort());
    expect(led.had.size).toBe(4);
  });

  it('ends with every run done, at the level that the rig was truly set to', () => {
    const { view, trials, demo } = play(seed);
    const truth = truthOf(demo);
    expect(view.step).toBe('finished');
    expect(view.runs).toHaveLength(15);
    for (const run of view.runs) {
      expect(run.trialIds, run.id).toHaveLength(1);
      const trial = trials.find(({ id }) => id === run.trialIds[0])!;
      expect(trial.factors['angle_deg'], run.id).toBe(trueAngle_deg(truth, trial.start_s));
    }
  });

  it('is nowhere further off what the rig truly gave than 5 %', () => {
    const { view, trials, demo } = play(seed);
    const truth = truthOf(demo);
    for (const run of view.runs) {
      const trial = trials.find(({ id }) => id === run.trialIds[0])!;
      const true_W = truePower_W(truth, trial);
      expect(Math.abs(trial.power_W!.value / true_W - 1), run.id).toBeLessThan(0.05);
    }
  });

  it('is told of the plan and of nothing else', () => {
    const said = play(seed).inputs.filter(({ kind }) => kind === 'command' || kind === 'action');
    expect(said).toMatchObject([{ kind: 'command', command: { say: 'plan' } }]);
  });

  it('finds nothing wrong with a rig that is wired right', () => {
    expect([...play(seed).found]).toEqual([]);
  });

  it('never says that blades may be set while they turn', () => {
    const { steps, demo } = play(seed);
    expect(steps.filter(({ step: name }) => name === 'set-blades').length).toBeGreaterThanOrEqual(15);
    for (const { step: name, rotorSpeed_radps } of steps) {
      if (name === 'set-blades') expect(rotorSpeed_radps).toBeLessThan(0.5);
    }
    expect(demo.rig.plant.rotorSpeed_radps).toBeGreaterThanOrEqual(0);
  });

  it('keeps what no run asked for, without a run, and gives nothing to two runs', () => {
    const { view, trials } = play(seed);
    const given = view.runs.flatMap(({ trialIds }) => trialIds);
    expect(new Set(given).size).toBe(given.length);
    const others = trials.filter(({ id }) => !given.includes(id));
    for (const { runId, struck, recorded } of others) {
      expect(runId === null || struck || !recorded).toBe(true);
    }
    expect(trials.map(({ id }) => id)).toEqual(trials.map((_, i) => i + 1));
  });

  it('derives identically from its recorded inputs', () => {
    const { inputs, trials } = play(seed);
    let state = begin(freshHead('simulated'), 1);
    for (const input of inputs) state = step(state, input).state;
    expect(state.book.trials).toEqual<Trial[]>([...trials]);
  });
});

describe('sixty runs of four such experiments', () => {
  it('are missed by no more of their intervals than honest ones of 95 % would', () => {
    const missed = SEEDS.flatMap((seed) => {
      const { view, trials, demo } = play(seed);
      const truth = truthOf(demo);
      const logged = view.runs.map(({ trialIds }) => trials.find(({ id }) => id === trialIds[0])!);
      return logged.filter((trial) => !isRight(truth, trial));
    });
    // More than seven of sixty have a probability of 0.009 (binomial distribution, one in twenty).
    expect(missed.length).toBeLessThanOrEqual(7);
  });
});
