import { describe, expect, it } from 'vitest';
import { planObstacles, planWarnings } from '#core/experiment/plan/obstacles.ts';
import type { Factor, Level, Plan } from '#core/experiment/plan/plan.ts';
import { anglePlan, bladesPlan, lengthPlan } from '#core/experiment/plan/templates.ts';

const ANGLE = anglePlan(1).factors[0]!;
const LENGTH = lengthPlan(1).factors[0]!;

const level = (label: string, value: number | null = null): Level => ({ label, value });
const angles = (...values: number[]) => values.map((value) => level(`${value}°`, value));

function withFactor(change: Partial<Factor>): Plan {
  return { ...anglePlan(1), factors: [{ ...ANGLE, ...change }] };
}

function remarks(plan: Plan): string[] {
  return planObstacles(plan).map(({ field, message }) => `${field}: ${message}`);
}

describe('obstacles', () => {
  it('there are none in the plans to begin with', () => {
    for (const plan of [anglePlan(1), lengthPlan(1), bladesPlan(1)]) {
      expect(planObstacles(plan)).toEqual([]);
      expect(planWarnings(plan)).toEqual([]);
    }
  });

  it('a level twice, by name (capitals and blanks aside) or by number', () => {
    const levels = [...angles(10, 20), level(' 10° ', 12), level('20 deg', 20)];
    expect(remarks(withFactor({ levels }))).toEqual([
      'factors.0.levels.2: “ 10° ” is in the list twice. Take one out.',
      'factors.0.levels.3: “20 deg” has the number of another level. Change one of them.',
    ]);
  });

  it('numbers and names mixed', () => {
    expect(remarks(withFactor({ levels: [...angles(10, 20), level('steep')] }))).toEqual([
      'factors.0.levels: Some levels of “Blade angle” have a number and some have none. Give all one, or none.',
    ]);
  });

  it('what can’t be set: an angle, a number of blades, a length', () => {
    const fieldsOf = (kind: Factor['kind'], ...values: number[]) =>
      planObstacles(withFactor({ kind, levels: values.map((value) => level(`${value}`, value)) })).map(
        ({ field }) => field,
      );
    expect(fieldsOf('angle', 0, 90, -1, 90.5)).toEqual(['factors.0.levels.2', 'factors.0.levels.3']);
    expect(fieldsOf('blades', 1, 2, 2.5, 0)).toEqual(['factors.0.levels.2', 'factors.0.levels.3']);
    expect(fieldsOf('length', 0.1, 0, -2)).toEqual(['factors.0.levels.1', 'factors.0.levels.2']);
    expect(fieldsOf('own', -5, 0, 1000)).toEqual([]);
  });

  it('one level alone', () => {
    const message = 'factors.0.levels: One level alone leaves nothing to compare. Add another.';
    expect(remarks(withFactor({ levels: angles(10) }))).toEqual([message]);
    const length = { ...LENGTH, levels: LENGTH.levels.slice(0, 1) };
    const alone = { ...ANGLE, levels: angles(10) };
    const plan = anglePlan(1);
    expect(remarks({ ...plan, design: 'factorial', factors: [alone, length] })).toEqual([message]);
    expect(remarks({ ...plan, design: 'factorial', factors: [alone, LENGTH] })).toEqual([]);
  });

  it('more than one factor where one is changed', () => {
    expect(remarks({ ...anglePlan(1), factors: [ANGLE, LENGTH] })).toEqual([
      'factors.1: Only one factor can be changed in this design. Take the others out.',
    ]);
  });

  it('factors with the same key or name', () => {
    const plan: Plan = { ...anglePlan(1), design: 'factorial', factors: [ANGLE, LENGTH] };
    const fields = (change: Partial<Factor>) =>
      planObstacles({ ...plan, factors: [ANGLE, { ...LENGTH, ...change }] }).map(({ field }) => field);
    expect(fields({ key: 'angle_deg' })).toEqual(['factors.1.key']);
    expect(fields({ name: 'blade  ANGLE' })).toEqual(['factors.1.name']);
  });

  it('groups with the same name', () => {
    expect(planObstacles({ ...anglePlan(1), groups: ['red', 'Red'] })[0]?.field).toBe('groups.1');
  });

  it('a level that is not there', () => {
    expect(planObstacles(withFactor({ baseLevel: 5 }))[0]?.field).toBe('factors.0.baseLevel');
    const reference = (levels: number[]) =>
      planObstacles({ ...anglePlan(1), reference: { every: 4, levels } }).map(({ field }) => field);
    expect(reference([4])).toEqual([]);
    expect(reference([5])).toEqual(['reference.levels.0']);
    expect(reference([])).toEqual(['reference.levels']);
  });

  it('too many runs, said without making them', () => {
    const many = Array.from({ length: 20 }, (_, i) => level(`${i}`, i + 1));
    const factors = ['a', 'b', 'c'].map((key): Factor => ({
      kind: 'own',
      key,
      name: key,
      levels: many,
      baseLevel: 0,
    }));
    expect(remarks({ ...anglePlan(1), design: 'factorial', factors, rounds: 20, repeats: 5 })).toEqual([
      'rounds: That would be 800\u202f000 runs, more than a plan can have. Take out levels, rounds or repeats.',
    ]);
    const atLimit: Plan = { ...anglePlan(1), rounds: 20, repeats: 3 };
    expect(remarks(atLimit)).toEqual([]);
    expect(planObstacles({ ...atLimit, repeats: 4 })[0]?.field).toBe('rounds');
  });

  it('names that are too long together for a run’s id', () => {
    const long = (letter: string): Factor => ({
      kind: 'own',
      key: `${letter.repeat(31)}_mmmmmmmm`,
      name: letter,
      levels: [level(`${letter} ${'x'.repeat(22)}`), level('b')],
      baseLevel: 0,
    });
    const factors = [long('a'), long('b'), long('c')];
    expect(planObstacles({ ...anglePlan(1), design: 'factorial', factors })[0]?.field).toBe('factors');
  });
});

describe('warnings', () => {
  const fields = (change: Partial<Plan>) =>
    planWarnings({ ...anglePlan(1), ...change }).map(({ field }) => field);

  it('say what the plan will not be able to tell', () => {
    expect(fields({ order: 'listed' })).toEqual(['order']);
    expect(fields({ rounds: 1 })).toEqual(['rounds']);
    expect(fields({ factors: [{ ...ANGLE, levels: angles(10, 20) }] })).toEqual(['factors.0.levels']);
  });

  it('leave names alone, between which nothing lies', () => {
    const levels = [level('round'), level('cut off')];
    expect(fields({ factors: [{ ...ANGLE, kind: 'own', levels }] })).toEqual([]);
  });
});
