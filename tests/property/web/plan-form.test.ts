/** Whatever is typed gives a plan that can be carried out, or a problem at a field that there is. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planObstacles } from '#core/experiment/plan/obstacles.ts';
import { FACTOR_KINDS, PlanSchema } from '#core/experiment/plan/plan.ts';
import type { PlanForm } from '../../../web/plan/form.ts';
import { formOf } from '../../../web/plan/form.ts';
import { readForm } from '../../../web/plan/read-form.ts';
import { readLevels } from '../../../web/plan/levels-text.ts';

/** Anything, and often what comes near to sense. */
const typed = fc.oneof(
  fc.string({ unit: 'binary' }),
  fc.string({ unit: fc.constantFrom(...'0123456789,.;- °mblades\n') }),
  fc.constantFrom('3', '10 25 40', 'short 60 mm, long 10 cm', '2,5 3,5', '14:45', 'Blade angle', 'mm'),
);
const factor = fc.record({ kind: fc.constantFrom(...FACTOR_KINDS), name: typed, unit: typed, levels: typed, base: fc.oneof(fc.constant(''), typed) });
const anyForm: fc.Arbitrary<PlanForm> = fc.record({
  question: typed,
  factors: fc.array(factor, { minLength: 1, maxLength: 3 }),
  design: fc.constantFrom('factorial', 'series'),
  rounds: typed,
  repeats: typed,
  order: fc.constantFrom('random', 'listed'),
  seed: fc.nat(),
  groups: typed,
  referenceEvery: fc.oneof(fc.constant(''), typed),
  referenceAt: fc.array(fc.oneof(fc.constant(''), typed), { maxLength: 3 }),
  constants: fc.array(fc.record({ name: typed, value: typed }), { maxLength: 13 }),
  finishBy: fc.oneof(fc.constant(''), typed),
});

/** The same with what must be there, so that plans come of it often. */
const likelyForm: fc.Arbitrary<PlanForm> = fc
  .record({
    form: anyForm,
    levels: fc.uniqueArray(fc.integer({ min: 1, max: 89 }), { minLength: 2, maxLength: 6 }),
    rounds: fc.integer({ min: 1, max: 4 }),
  })
  .map(({ form, levels, rounds }) => ({
    ...form,
    question: 'Which?',
    factors: [{ kind: 'angle', name: 'Blade angle', unit: '', levels: levels.join(' '), base: '' }],
    rounds: String(rounds),
    repeats: '1',
    groups: '',
    referenceEvery: '',
    constants: [],
    finishBy: '',
  }));

const FIELD = /^(question|design|rounds|repeats|order|groups|reference|finishBy|factors\.[012]\.(kind|name|unit|levels|base)|constants\.\d+)$/;

describe('the plan form', () => {
  it('never throws, and gives a plan or a problem at a field', () => {
    let plans = 0;
    fc.assert(
      fc.property(fc.oneof(anyForm, likelyForm), (form) => {
        const { plan, problems } = readForm(form);
        expect(plan === null).toBe(problems.length > 0);
        for (const { field } of problems) expect(field).toMatch(FIELD);
        if (plan === null) return;
        plans += 1;
        expect(PlanSchema.safeParse(plan).success).toBe(true);
        expect(planObstacles(plan)).toEqual([]);
      }),
      { numRuns: 2000 },
    );
    expect(plans).toBeGreaterThan(500);
  });

  it('gives every plan that it has made back as it was', () => {
    fc.assert(
      fc.property(likelyForm, (form) => {
        const { plan } = readForm(form);
        if (plan === null) throw new Error('this form is a plan');
        expect(readForm(formOf(plan)).plan).toEqual(plan);
      }),
    );
  });

  it('reads as many levels as numbers were typed, each with its own value', () => {
    const numbers = fc.array(fc.integer({ min: 0, max: 9999 }), { minLength: 1, maxLength: 12 });
    const mark = fc.constantFrom(' ', ', ', '; ', '\n');
    fc.assert(
      fc.property(numbers, mark, fc.boolean(), (all, between, hasComma) => {
        const texts = all.map((value) => (value / 10).toFixed(1).replace('.', hasComma ? ',' : '.'));
        const values = readLevels(texts.join(between), 'own', '').map(({ value }) => value);
        expect(values).toEqual(all.map((value) => value / 10));
      }),
    );
  });
});
