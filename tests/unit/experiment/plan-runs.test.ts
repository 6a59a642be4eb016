import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { factorsOf, labelOf, levelWords } from '#core/experiment/plan/factors.ts';
import { planObstacles } from '#core/experiment/plan/obstacles.ts';
import { PlanSchema, type Plan, type Run } from '#core/experiment/plan/plan.ts';
import { isSameSetting, partsOf, runIdOf } from '#core/experiment/plan/run-id.ts';
import { runCountOf, runsOf, settingsOf } from '#core/experiment/plan/runs.ts';
import { anglePlan } from '#core/experiment/plan/templates.ts';
import { plans } from './plan-arbitrary.ts';

const ids = (runs: readonly Run[]) => runs.map(({ id }) => id);
const isPlanned = ({ isReference }: Run) => !isReference;

function planOf(change: Partial<Plan>): Plan {
  return { ...anglePlan(7), ...change };
}

describe('the runs of any plan', () => {
  it('have ids of their own, which say what the run is', () => {
    fc.assert(
      fc.property(plans, (plan) => {
        expect(planObstacles(plan)).toEqual([]);
        const runs = runsOf(plan);
        expect(new Set(ids(runs)).size).toBe(runs.length);
        for (const run of runs) {
          const parts = partsOf(run.id);
          expect(parts).toMatchObject({ round: run.round, group: run.group, repeat: run.repeat });
          expect(parts?.setting).toEqual(factorsOf(plan, run));
          expect(parts && runIdOf(parts)).toBe(run.id);
        }
      }),
    );
  });

  it('are as many as are counted without making them', () => {
    fc.assert(
      fc.property(plans, (plan) => {
        expect(runsOf(plan)).toHaveLength(runCountOf(plan));
      }),
    );
  });

  it('hold every setting once a round, with its repeats right behind it', () => {
    fc.assert(
      fc.property(plans, (plan) => {
        const runs = runsOf(plan).filter(isPlanned);
        const settings = settingsOf(plan).map(String).sort();
        const groups = plan.groups.length > 0 ? plan.groups : [null];
        for (const group of groups) {
          for (let round = 1; round <= plan.rounds; round++) {
            const ofRound = runs.filter((run) => run.round === round && run.group === group);
            const anew = ofRound.filter(({ repeat }) => repeat === 1);
            expect(anew.map(({ levels }) => String(levels)).sort()).toEqual(settings);
            ofRound.forEach((run, i) => {
              expect(run.repeat).toBe((i % plan.repeats) + 1);
              if (run.repeat > 1) expect(run.levels).toEqual(ofRound[i - 1]?.levels);
            });
          }
        }
      }),
    );
  });

  it('go round by round, the groups in turn', () => {
    fc.assert(
      fc.property(plans, (plan) => {
        const groups = plan.groups.length > 0 ? plan.groups : [null];
        const places = runsOf(plan)
          .filter(isPlanned)
          .map(({ round, group }) => round * groups.length + groups.indexOf(group as never));
        expect(places).toEqual([...places].sort((a, b) => a - b));
      }),
    );
  });

  it('come back to the reference at the beginning, every so many runs, and at the end', () => {
    fc.assert(
      fc.property(plans, (plan) => {
        for (const group of plan.groups.length > 0 ? plan.groups : [null]) {
          const runs = runsOf(plan).filter((run) => run.group === group);
          const flags = runs.map((run) => (run.isReference ? 'R' : run.repeat > 1 ? '+' : '.'));
          if (plan.reference === null) {
            expect(flags).not.toContain('R');
            continue;
          }
          const stretches = flags.join('').split('R');
          expect([stretches.shift(), stretches.pop()]).toEqual(['', '']);
          const last = stretches.pop();
          for (const stretch of stretches) {
            // Whole settings only: as many as it takes to reach `every`.
            expect(stretch).not.toMatch(/^\+/);
            expect(stretch.length).toBeGreaterThanOrEqual(plan.reference.every);
            expect(stretch.length).toBeLessThan(plan.reference.every + plan.repeats);
          }
          expect(last).toMatch(/^\./);
        }
      }),
    );
  });

  it('are the same in the same order for the same plan', () => {
    fc.assert(
      fc.property(plans, (plan) => {
        expect(runsOf(PlanSchema.parse(plan))).toEqual(runsOf(plan));
      }),
    );
  });

  it('are other runs in no way when they are in another order', () => {
    fc.assert(
      fc.property(plans, fc.nat(), (plan, seed) => {
        const other = runsOf({ ...plan, seed, order: 'random' }).filter(isPlanned);
        const factors = [...plan.factors].reverse();
        const reversed = runsOf({ ...plan, factors, reference: null });
        const sorted = ids(runsOf(plan).filter(isPlanned)).sort();
        expect(ids(other).sort()).toEqual(sorted);
        if (plan.design !== 'single') expect(ids(reversed).sort()).toEqual(sorted);
      }),
    );
  });
});

describe('the order within a round', () => {
  /** The order of the levels in one round, as a word. */
  const orderOf = (plan: Plan, round: number, group: string | null = null) =>
    runsOf(plan)
      .filter((run) => run.round === round && run.group === group)
      .map(({ levels }) => String(levels))
      .join(' ');

  it('stays as listed where that is wanted', () => {
    const plan = planOf({ order: 'listed' });
    expect([1, 2, 3].map((round) => orderOf(plan, round))).toEqual(
      Array.from({ length: 3 }, () => '0 1 2 3 4'),
    );
  });

  it('is another for another seed, round and group, as often as chance has it', () => {
    // Two random orders of five levels are the same in one case of 5! = 120.
    const count = 1200;
    let [bySeed, byRound, byGroup] = [0, 0, 0];
    for (let seed = 0; seed < count; seed++) {
      const plan = planOf({ seed, groups: ['red', 'blue'] });
      const first = orderOf(plan, 1, 'red');
      bySeed += Number(first === orderOf({ ...plan, seed: seed + 1 }, 1, 'red'));
      byRound += Number(first === orderOf(plan, 2, 'red'));
      byGroup += Number(first === orderOf(plan, 1, 'blue'));
    }
    for (const same of [bySeed, byRound, byGroup]) expect(same).toBeLessThan(count / 40);
  });

  it.each([
    // Upper 0.1 % points of the chi-square law: NIST/SEMATECH e-Handbook of Statistical Methods,
    // 1.3.6.7.4, columns 0.999, rows 5 and 23 (orders of 3 and of 4 levels, less one).
    { levels: 3, orders: 6, critical: 20.515 },
    { levels: 4, orders: 24, critical: 49.728 },
  ])('has each order of $levels levels equally often', ({ levels, orders, critical }) => {
    const [factor] = anglePlan(0).factors;
    if (factor === undefined) throw new Error('no factor');
    const few = [{ ...factor, levels: factor.levels.slice(0, levels) }];
    for (const round of [1, 2]) {
      const seen = new Map<string, number>();
      const count = orders * 500;
      for (let seed = 0; seed < count; seed++) {
        const order = orderOf(planOf({ seed, factors: few, rounds: 2 }), round);
        seen.set(order, (seen.get(order) ?? 0) + 1);
      }
      expect(seen.size).toBe(orders);
      const expected = count / orders;
      const chiSquare = [...seen.values()].reduce(
        (sum, found) => sum + (found - expected) ** 2 / expected,
        0,
      );
      expect(chiSquare).toBeLessThan(critical);
    }
  });
});

describe('a series', () => {
  it('varies one factor after the other and does the shared base setting once', () => {
    const [angle] = anglePlan(0).factors;
    if (angle === undefined) throw new Error('no factor');
    const tip = { kind: 'own', key: 'tip', name: 'Tip', baseLevel: 1 } as const;
    const levels = [
      { label: 'round', value: null },
      { label: 'cut off', value: null },
    ];
    const plan = PlanSchema.parse({
      ...planOf({ design: 'series', order: 'listed', rounds: 1 }),
      factors: [{ ...angle, levels: angle.levels.slice(0, 3), baseLevel: 2 }, { ...tip, levels }],
    });
    expect(ids(runsOf(plan))).toEqual([
      'r1 angle_deg=8 tip="cut off"',
      'r1 angle_deg=20 tip="cut off"',
      'r1 angle_deg=35 tip="cut off"',
      'r1 angle_deg=35 tip=round',
    ]);
  });
});

describe('ids', () => {
  it('hold group, reference and repeat', () => {
    const plan = planOf({
      order: 'listed',
      rounds: 1,
      repeats: 2,
      groups: ['red'],
      reference: { every: 10, levels: [1] },
    });
    expect(ids(runsOf(plan)).slice(0, 3)).toEqual([
      'r1 group:red reference:1 angle_deg=20',
      'r1 group:red angle_deg=8',
      'r1 group:red angle_deg=8 repeat:2',
    ]);
  });

  it('tell again runs apart from the planned one', () => {
    const parts = partsOf('r1 angle_deg=8 again:2');
    expect(parts).toMatchObject({ setting: { angle_deg: 8 }, repeat: 1, again: 2 });
    expect(parts && runIdOf(parts)).toBe('r1 angle_deg=8 again:2');
  });

  it('of repeats and of what was added say that nothing is set anew', () => {
    const run = 'r1 group:"a b" angle_deg=8';
    expect(isSameSetting(run, `${run} repeat:2`)).toBe(true);
    expect(isSameSetting(`${run} repeat:2`, `${run} again:1`)).toBe(true);
    expect(isSameSetting(run, 'r2 group:"a b" angle_deg=8')).toBe(false);
    expect(isSameSetting(run, 'r1 group:"a b" angle_deg=80')).toBe(false);
    expect(isSameSetting('r1 angle_deg=8', 'r1 reference:1 angle_deg=8')).toBe(false);
  });

  it('of another kind say nothing', () => expect(partsOf('trial 3')).toBeNull());
});

describe('levels in words', () => {
  const plan = planOf({});
  const run = { id: 'r1 angle_deg=33', levels: [-1] };

  it('are the labels of the plan', () => {
    expect(levelWords(plan, { id: '', levels: [1] })).toBe('20°');
    expect(labelOf(plan.factors[0]!, 1)).toBe('20°');
  });

  it('are taken from the id where the plan no longer has the level', () => {
    expect(levelWords(plan, run)).toBe('33');
    expect(factorsOf(plan, run)).toEqual({ angle_deg: 33 });
    expect(labelOf(plan.factors[0]!, -1)).toBe('–');
  });
});
