import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { carryOver } from '#core/experiment/plan/change.ts';
import { factorsOf, levelWords } from '#core/experiment/plan/factors.ts';
import type { Plan, Run } from '#core/experiment/plan/plan.ts';
import { runsOf } from '#core/experiment/plan/runs.ts';
import { anglePlan } from '#core/experiment/plan/templates.ts';
import { plans } from './plan-arbitrary.ts';

const ids = (runs: readonly Run[]) => runs.map(({ id }) => id);

/** Some runs of a plan, done in some order, with the plan that comes after it. */
const changes = fc
  .tuple(plans, plans)
  .chain(([before, plan]) =>
    fc.record({ before: fc.constant(before), plan: fc.constant(plan), done: fc.shuffledSubarray(runsOf(before)) }),
  );

function angles(degrees: readonly number[], change: Partial<Plan> = {}): Plan {
  const plan = anglePlan(5);
  const [factor] = plan.factors;
  if (factor === undefined) throw new Error('no factor');
  const levels = degrees.map((value) => ({ label: `${value}°`, value }));
  return { ...plan, order: 'listed', factors: [{ ...factor, levels }], ...change };
}

describe('a plan changed in the middle', () => {
  it('loses and doubles nothing that was done, in its order', () => {
    fc.assert(
      fc.property(changes, ({ before, plan, done }) => {
        const runs = carryOver(done, plan, before);
        expect(ids(runs).slice(0, done.length)).toEqual(ids(done));
        expect(new Set(ids(runs)).size).toBe(runs.length);
        runs.slice(0, done.length).forEach((run, i) => {
          const was = done[i]!;
          expect({ ...run, levels: was.levels, lastWords: was.lastWords }).toEqual(was);
          if (run.levels.includes(-1)) expect(levelWords(plan, run)).toBe(levelWords(before, was));
          // Whatever the new plan holds, the run is still at the levels it was done at.
          expect(factorsOf(plan, run)).toEqual(factorsOf(before, was));
        });
      }),
    );
  });

  it('misses nothing of the new plan, round by round', () => {
    fc.assert(
      fc.property(changes, ({ before, plan, done }) => {
        const runs = carryOver(done, plan, before);
        const isPlanned = ({ isReference }: Run) => !isReference;
        const wanted = ids(runsOf(plan).filter(isPlanned));
        const left = runs.slice(done.length).filter(isPlanned);
        expect(wanted.filter((id) => !ids(runs).includes(id))).toEqual([]);
        expect(ids(left).filter((id) => !wanted.includes(id))).toEqual([]);
        // Repeats of what the blades are still set to come first, whatever their round.
        const anew = left.slice(left.findIndex(({ repeat }) => repeat === 1));
        expect(anew.map(({ round }) => round)).toEqual(anew.map(({ round }) => round).sort());
      }),
    );
  });

  it('goes on as planned where nothing was changed', () => {
    fc.assert(
      fc.property(plans, fc.nat(), (plan, seed) => {
        const runs = runsOf(plan);
        const doneCount = seed % (runs.length + 1);
        expect(carryOver(runs.slice(0, doneCount), plan, plan)).toEqual(runs);
      }),
    );
  });

  it('keeps a level that was taken out among what was done', () => {
    const done = runsOf(angles([10, 20, 40])).slice(0, 2);
    const before = angles([10, 20, 40]);
    const after = angles([20, 40], { rounds: 1 });
    const runs = carryOver(done, after, before);
    expect(ids(runs)).toEqual(['r1 angle_deg=10', 'r1 angle_deg=20', 'r1 angle_deg=40']);
    expect(runs.map(({ levels }) => levels)).toEqual([[-1], [0], [1]]);
    expect(runs.map((run) => levelWords(after, run))).toEqual(['10°', '20°', '40°']);
    // Also through a change more, and it is an ordinary level again when it comes back.
    const later = carryOver(runs, angles([40]), after);
    expect(later.slice(0, 2).map((run) => levelWords(angles([40]), run))).toEqual(['10°', '20°']);
    expect(carryOver(later.slice(0, 1), before, after)[0]).toEqual(done[0]);
  });

  it('does the repeats of the level that the blades still stand at first', () => {
    const done = runsOf(angles([10, 20], { repeats: 2 })).slice(2, 3);
    const before = angles([10, 20], { repeats: 2 });
    const runs = carryOver(done, angles([10, 20, 30], { repeats: 2, rounds: 1 }), before);
    expect(ids(runs)).toEqual([
      'r1 angle_deg=20',
      'r1 angle_deg=20 repeat:2',
      'r1 angle_deg=10',
      'r1 angle_deg=10 repeat:2',
      'r1 angle_deg=30',
      'r1 angle_deg=30 repeat:2',
    ]);
  });

  it('counts what was done since the last reference run', () => {
    const reference = { every: 3, levels: [0] };
    const done = runsOf(angles([10, 20, 40], { reference, rounds: 1 })).slice(0, 3);
    const before = angles([10, 20, 40], { reference, rounds: 1 });
    const runs = carryOver(done, angles([10, 20, 40, 50], { reference, rounds: 1 }), before);
    expect(ids(runs)).toEqual([
      'r1 reference:1 angle_deg=10',
      'r1 angle_deg=10',
      'r1 angle_deg=20',
      'r1 angle_deg=40',
      'r1 reference:2 angle_deg=10',
      'r1 angle_deg=50',
      'r1 reference:3 angle_deg=10',
    ]);
  });
});
