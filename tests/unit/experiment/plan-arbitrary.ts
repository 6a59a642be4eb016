/** Any plan without obstacles, small enough to be looked at whole. */
import fc from 'fast-check';
import { MOST_RUNS, type Factor, type Level, type Plan } from '#core/experiment/plan/plan.ts';
import { runCountOf } from '#core/experiment/plan/runs.ts';

const numbers = fc
  .uniqueArray(fc.integer({ min: 0, max: 900 }), { minLength: 1, maxLength: 4 })
  .map((values): Level[] => values.map((value) => ({ label: `${value / 10} mm`, value: value / 10 })));

const names = fc
  .uniqueArray(fc.constantFrom('short', 'long', 'with a "dent"', '20', 'r=1 b:2', 'größer', 'a\\'), {
    minLength: 1,
    maxLength: 4,
  })
  .map((labels): Level[] => labels.map((label) => ({ label, value: null })));

const levels = fc.oneof(numbers, names);

const factors = fc
  .uniqueArray(fc.constantFrom('a_mm', 'b', 'group', 'toString'), { minLength: 1, maxLength: 3 })
  .chain((keys) =>
    fc.tuple(
      ...keys.map((key) =>
        fc.tuple(levels, fc.nat()).map(([all, base]): Factor => ({
          kind: 'own',
          key,
          name: `Factor ${key}`,
          levels: all,
          baseLevel: base % all.length,
        })),
      ),
    ),
  );

export const plans: fc.Arbitrary<Plan> = factors
  .chain((all) =>
    fc.record<Plan>({
      question: fc.constant('What gives the most power?'),
      factors: fc.constant(all),
      design:
        all.length === 1 ? fc.constant('single') : fc.constantFrom('factorial', 'series'),
      rounds: fc.integer({ min: 1, max: 3 }),
      repeats: fc.integer({ min: 1, max: 3 }),
      order: fc.constantFrom('random', 'listed'),
      seed: fc.integer({ min: 0, max: 0xffffffff }),
      groups: fc.uniqueArray(fc.constantFrom('red', 'blue table', 'a:b'), { maxLength: 3 }),
      reference: fc.option(
        fc.record({
          every: fc.integer({ min: 2, max: 7 }),
          levels: fc.constant(all.map(({ baseLevel }) => baseLevel)),
        }),
      ),
      constants: fc.constant([]),
      finishBy: fc.constant(null),
    }),
  )
  .filter(({ factors: all }) => all.some((factor) => factor.levels.length > 1))
  .filter((plan) => runCountOf(plan) <= MOST_RUNS);
