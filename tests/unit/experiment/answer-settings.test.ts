/** What stands at which level, and what counts as a repeat. */
import { describe, expect, it } from 'vitest';
import { PlanSchema, type Plan } from '#core/experiment/plan/plan.ts';
import { carryOver } from '#core/experiment/plan/change.ts';
import { runsOf } from '#core/experiment/plan/runs.ts';
import { NO_EXPERIMENT, type ExperimentView } from '#core/experiment/view.ts';
import {
  besideNames,
  placeAcross,
  seatedTrials,
} from '#core/experiment/answer/seats.ts';
import { seatMeans, triedSettings } from '#core/experiment/answer/settings.ts';
import { trialOf } from '../web/fixtures.ts';

const ANGLE = {
  kind: 'angle',
  key: 'angle_deg',
  name: 'Blade angle',
  levels: [10, 25].map((value) => ({ label: `${value}°`, value })),
} as const;
const TIP = {
  kind: 'own',
  key: 'tip',
  name: 'Tip',
  levels: ['square', 'round', 'swept'].map((label) => ({ label, value: null })),
} as const;

function viewOf(more: Partial<Plan> | Record<string, unknown>): ExperimentView & { plan: Plan } {
  const plan = PlanSchema.parse({
    question: 'Which?',
    factors: [ANGLE],
    design: 'single',
    rounds: 2,
    order: 'listed',
    seed: 1,
    ...more,
  });
  const runs = runsOf(plan).map((run) => ({ ...run, status: 'open' as const, trialIds: [] }));
  return { ...NO_EXPERIMENT, plan, runs };
}

/** Trials of all runs in their order, so many mW each. */
const trialsOfAll = ({ runs }: ExperimentView, powers_mW: readonly number[]) =>
  runs.map(({ id }, i) => trialOf(i + 1, powers_mW[i] ?? 0, { runId: id }));

describe('the mean of a level', () => {
  it('is that of its settings, with t(0.975, 1) = 12.706 for two (NIST e-Handbook, 1.3.6.7.2)', () => {
    const view = viewOf({});
    const means = seatMeans(triedSettings(seatedTrials(view, trialsOfAll(view, [100, 200, 104, 210]), 0)));
    expect(means.map(({ level, power_W }) => [level, power_W.mean, power_W.count])).toEqual([
      [0, expect.closeTo(0.102, 12), 2],
      [1, expect.closeTo(0.205, 12), 2],
    ]);
    // s = 2.828 mW, s/√2 = 2 mW.
    expect(means[0]?.power_W.halfWidth).toBeCloseTo(12.706 * 0.002, 5);
  });

  it('counts readings of one setting once, however many: nothing was set anew', () => {
    const view = viewOf({ rounds: 1, repeats: 3 });
    const [mean] = seatMeans(triedSettings(seatedTrials(view, trialsOfAll(view, [100, 101, 102, 1, 1, 1]), 0)));
    expect(mean?.power_W).toEqual({ mean: expect.closeTo(0.101, 12), halfWidth: null, count: 1 });
  });

  it('leaves out what is struck, was cut off or did not turn', () => {
    const view = viewOf({ rounds: 4 });
    const [good, struck, cut, still] = seatedTrials(view, trialsOfAll(view, [100, 0, 90, 0, 80, 0, 0]), 0)
      .filter(({ seat }) => seat?.level === 0)
      .map(({ trial, seat }, i) => ({
        seat,
        trial: { ...trial, struck: i === 1, recorded: i !== 2, rotorStill: i === 3 },
      }));
    if (!good || !struck || !cut || !still) throw new Error('four trials of one level');
    expect(seatMeans(triedSettings([good, struck, cut, still]))[0]?.power_W.count).toBe(1);
    expect(seatMeans(triedSettings([struck, cut, still]))).toEqual([]);
  });
});

describe('where trials stand', () => {
  it('those that no run has, or a run that the plan no longer has, have a place of their own', () => {
    const view = viewOf({});
    const trials = [trialOf(1, 100), trialOf(2, 100, { runId: 'r9 angle_deg=70' })];
    expect(seatedTrials(view, trials, 0).map(({ seat }) => seat)).toEqual([null, null]);
  });

  it('those whose level was taken out of the plan stay, in no mean', () => {
    const before = viewOf({ rounds: 1 });
    const plan = { ...before.plan, factors: [{ ...before.plan.factors[0]!, levels: [ANGLE.levels[1]!] }] };
    const runs = carryOver(before.runs, plan, before.plan).map((run) => {
      return { ...run, status: 'done' as const, trialIds: [] };
    });
    const seated = seatedTrials({ ...before, plan, runs }, trialsOfAll(before, [100, 200]), 0);
    expect(seated.map(({ seat }) => seat?.level ?? null)).toEqual([null, 0]);
    expect(seatMeans(triedSettings(seated)).map(({ power_W }) => power_W.mean)).toEqual([0.2]);
  });

  it('two factors: across by the first, side by side by the second', () => {
    const view = viewOf({ design: 'factorial', factors: [ANGLE, TIP], rounds: 1 });
    const seats = seatedTrials(view, trialsOfAll(view, []), 0).map(({ seat }) => seat);
    expect(seats).toEqual([0, 1].flatMap((level) => [0, 1, 2].map((beside) => ({ level, beside }))));
    expect(besideNames(view.plan, 0)).toEqual(['square', 'round', 'swept']);
  });

  it('a series: by the factor that the run varies, and the others only at their base level', () => {
    const view = viewOf({ design: 'series', factors: [ANGLE, { ...TIP, baseLevel: 1 }], rounds: 1 });
    const trials = trialsOfAll(view, []);
    expect(view.runs.map(({ levels }) => levels)).toEqual([[0, 1], [1, 1], [0, 0], [0, 2]]);
    expect(view.runs.map((run) => placeAcross(view.plan, run))).toEqual([0, 0, 1, 1]);
    const levelsAt = (place: number) => seatedTrials(view, trials, place).map(({ seat }) => seat?.level);
    expect(levelsAt(0)).toEqual([0, 1]);
    expect(levelsAt(1)).toEqual([1, 0, 2]);
  });
});
