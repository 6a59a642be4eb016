/** What a person is pointed at, in experiments that can be followed by eye. */
import { describe, expect, it } from 'vitest';
import { doubtsOf } from '#core/experiment/doubts/doubts.ts';
import { windChange } from '#core/experiment/doubts/wind-drift.ts';
import { findingsOfTrials } from '#core/rig-check/trial-findings.ts';
import { runIdOf } from '#core/experiment/plan/run-id.ts';
import type { ShownTrial } from '#core/experiment/trial.ts';
import { CONFIGURATIONS } from '../../bench/doubts/configurations.ts';
import { trialsOf } from '../../bench/doubts/experiment.ts';

const QUIET = CONFIGURATIONS[0]!;
const NOTHING_SAID = { instruments: [], rotorAndAir: null, airs: [] };
const kinds = (trials: readonly ShownTrial[]) => doubtsOf(trials).map(({ kind, trialId }) => [kind, trialId]);

/** Three rounds of three levels on each rig: what a level gives, and what its power is times. */
function experiment(times: Readonly<Record<string, number>>, more: { group?: string; repeat?: number } = {}) {
  const [shape] = trialsOf(QUIET, {}, 1);
  const { group = null, repeat = 1 } = more;
  return [1, 2, 3].flatMap((round) =>
    [10, 20, 30].map((angle_deg): ShownTrial => {
      const id = (round - 1) * 3 + angle_deg / 10 + (group === null ? 0 : 9) + (repeat - 1) * 20;
      const setting = { angle_deg };
      const runId = runIdOf({ round, group, reference: 0, setting, repeat, again: 0 });
      const wobble = 1 + 0.01 * Math.sin(3 * id);
      const value = (angle_deg / 100) * wobble * (times[`${round} ${angle_deg}`] ?? 1);
      const power_W = { value, standardUncertainty: 0.001, degreesOfFreedom: 9 };
      return { ...shape!, id, runId, factors: setting, power_W };
    }),
  );
}

describe('doubts', () => {
  it('point at the setting that gave something else, by how much, and at no other', () => {
    expect(doubtsOf(experiment({}))).toEqual([]);
    const [doubt, ...others] = doubtsOf(experiment({ '2 20': 1.4 }));
    expect(others).toEqual([]);
    expect(doubt).toMatchObject({ trialId: 5, kind: 'far-from-others' });
    expect(doubt?.share).toBeCloseTo(0.4, 1);
    expect(doubt?.message).toContain('Was it set right?');
  });

  it('leave out what is struck, and what was not recorded', () => {
    const strike = (trial: ShownTrial): ShownTrial => ({ ...trial, struck: trial.id === 5 });
    expect(doubtsOf(experiment({ '2 20': 1.4 }).map(strike))).toEqual([]);
    const cut = (trial: ShownTrial): ShownTrial => ({ ...trial, recorded: trial.id !== 5 });
    expect(doubtsOf(experiment({ '2 20': 1.4 }).map(cut))).toEqual([]);
  });

  it('take repeats, for which nothing was set anew, as one setting: together they stand out', () => {
    const slipped = { '2 20': 1.4 };
    const repeated = [...experiment(slipped), ...experiment(slipped, { repeat: 2 })];
    expect(kinds(repeated)).toEqual([['far-from-others', 5]]);
  });

  it('compare a rig with itself: another that gives half as much is no slip', () => {
    const all = Object.fromEntries(experiment({}).map(({ runId }) => [runId!.replace(/r(\d) angle_deg=/, '$1 '), 0.5]));
    const both = [...experiment({}), ...experiment(all, { group: 'red' })];
    expect(kinds(both)).toEqual([]);
    expect(kinds([...experiment({ '3 10': 1.5 }), ...experiment(all, { group: 'red' })])).toEqual([
      ['far-from-others', 7],
    ]);
  });

  it('tell of power that creeps, from the first to the last, though no trial stands out', () => {
    const fading = Object.fromEntries(
      experiment({}).map(({ id, runId }) => [runId!.replace(/r(\d) angle_deg=/, '$1 '), 1 - 0.02 * (id - 1)]),
    );
    const [doubt, ...others] = doubtsOf(experiment(fading));
    expect(others).toEqual([]);
    expect(doubt).toMatchObject({ trialId: 9, kind: 'power-drift' });
    expect(doubt?.share).toBeCloseTo(-0.17, 1);
    expect(doubt?.message).toContain('has fallen by');
  });

  it('tell of another wind in the trial in which it changed', () => {
    const trials = trialsOf(QUIET, { wind: { from: 12, share: 0.85 } }, 4);
    const [first] = doubtsOf(trials).filter(({ kind }) => kind === 'wind-drift');
    expect(first).toMatchObject({ trialId: 12 });
    expect(first?.share).toBeCloseTo(-0.15, 1);
  });

  it('leave the wind alone where the plan sets it', () => {
    const trials = trialsOf(QUIET, { wind: { from: 12, share: 0.85 } }, 4);
    expect(doubtsOf(trials, true).map(({ kind }) => kind)).not.toContain('wind-drift');
  });
});

describe('a wind that changed', () => {
  const trials = trialsOf(QUIET, { wind: { from: 12, share: 0.85 } }, 4);

  it('is found once a second trial shows it, with how much', () => {
    expect(windChange(trials.slice(0, 12))).toBeNull();
    expect(windChange(trials.slice(0, 13))).toMatchObject({ trialId: 12 });
    expect(windChange(trials)?.share).toBeCloseTo(-0.15, 1);
    expect(findingsOfTrials(trials, NOTHING_SAID, false)).toMatchObject([
      { kind: 'wind-changed', trialId: 12 },
    ]);
  });

  it('is none where the plan sets the wind, or the fan was put back', () => {
    expect(findingsOfTrials(trials, NOTHING_SAID, true)).toEqual([]);
    const back = trials.map((trial) => {
      return trial.id < 15 ? trial : { ...trial, windSpeed_mps: trials[0]!.windSpeed_mps };
    });
    expect(windChange(back)).toBeNull();
  });
});
