import { describe, expect, it } from 'vitest';
import { planObstacles } from '#core/experiment/plan/obstacles.ts';
import type { Plan } from '#core/experiment/plan/plan.ts';
import { runsOf } from '#core/experiment/plan/runs.ts';
import {
  anglePlan,
  bladesPlan,
  lengthPlan,
  type TemplateWords,
} from '#core/experiment/plan/templates.ts';
import { LANGUAGES } from '../../../web/words/catalogue.ts';
import { CATALOGUES } from '../../../web/words/languages.ts';

const PLANS: readonly [string, (seed: number, words?: TemplateWords) => Plan][] = [
  ['angle', anglePlan],
  ['length', lengthPlan],
  ['blades', bladesPlan],
];

describe('plans to begin with', () => {
  it.each(PLANS)('%s: one factor in random order, three rounds, the seed given', (kind, plan) => {
    expect(plan(77)).toMatchObject({ design: 'single', rounds: 3, order: 'random', seed: 77 });
    expect(plan(77).factors.map((factor) => factor.kind)).toEqual([kind]);
  });

  it.each(PLANS)('%s: what is varied is not listed as held constant', (_, plan) => {
    const { factors, constants } = plan(1);
    const names = constants.map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
    expect(names).toEqual(expect.arrayContaining(['Fan to rotor', 'Fan setting', 'Load', 'Blade type']));
    for (const { name } of factors) expect(names).not.toContain(name);
  });

  it.each(LANGUAGES)('in %s: plans without obstacles, the same but for the words', (language) => {
    const { template } = CATALOGUES[language].bench.form;
    for (const [, planOf] of PLANS) {
      const [plan, english] = [planOf(1, template), planOf(1)];
      expect(planObstacles(plan)).toEqual([]);
      expect(runsOf(plan)).toEqual(runsOf(english));
      expect(plan.constants).toHaveLength(english.constants.length);
    }
  });

  it('number of blades: each number can be set evenly in a hub with twelve holes', () => {
    const counts = bladesPlan(1).factors[0]?.levels.map(({ value }) => value) ?? [];
    for (const count of counts) expect(12 % (count ?? NaN)).toBe(0);
  });
});
