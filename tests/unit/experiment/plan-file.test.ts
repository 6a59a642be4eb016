/** A plan that comes in a file: another group's, or one that was kept. */
import { describe, expect, it } from 'vitest';
import { readPlanFile } from '#core/experiment/plan/plan-file.ts';
import { anglePlan } from '#core/experiment/plan/templates.ts';

const PLAN = anglePlan(5);

describe('a plan in a file', () => {
  it('is read as sessions are saved, and alone', () => {
    const saved = { plan: PLAN, predictions: { '20°': 3 }, isCovered: true };
    expect(readPlanFile(JSON.stringify(saved))).toEqual({ plan: PLAN });
    expect(readPlanFile(JSON.stringify(PLAN))).toEqual({ plan: PLAN });
  });

  it.each([
    [null, 'no-plan-file'],
    ['', 'no-plan-file'],
    ['{"plan":', 'no-plan-file'],
    ['3', 'no-plan-file'],
    ['{"plan":null}', 'session-without-plan'],
    ['{"plan":{"question":"Which?"}}', 'plan-unfit'],
    ['{"plans":3}', 'plan-unfit'],
    [JSON.stringify({ ...PLAN, rounds: 1e6 }), 'plan-unfit'],
    [JSON.stringify({ ...PLAN, factors: [] }), 'plan-unfit'],
    [JSON.stringify({ ...PLAN, factors: [{ ...PLAN.factors[0]!, levels: [{ label: '95°', value: 95 }] }] }), 'plan-unfit'],
  ])('%s is none, and which way is said: %s', (text, fault) => {
    expect(readPlanFile(text)).toEqual({ fault });
  });
});
