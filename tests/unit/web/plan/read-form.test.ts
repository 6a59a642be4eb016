/** From the form to a plan: what is typed is understood, or said to be in the way at its field. */
import { describe, expect, it } from 'vitest';
import { runsOf } from '#core/experiment/plan/runs.ts';
import { anglePlan, bladesPlan, lengthPlan } from '#core/experiment/plan/templates.ts';
import { emptyForm, formOf, type FactorForm, type PlanForm } from '../../../../web/plan/form.ts';
import { readForm } from '../../../../web/plan/read-form.ts';

const ANGLE: FactorForm = { kind: 'angle', name: 'Blade angle', unit: '°', levels: '10 25 40', base: '' };
const form = (more: Partial<PlanForm> = {}): PlanForm => ({
  ...emptyForm(5),
  question: 'Which blade angle gives the most power?',
  factors: [ANGLE],
  ...more,
});
const problemsOf = (more: Partial<PlanForm>): string[] =>
  readForm(form(more)).problems.map(({ field, kind }) => `${field}: ${kind}`);

describe('a form', () => {
  it('becomes a plan whose runs are what was typed', () => {
    const { plan } = readForm(form({ rounds: '2', finishBy: '1445', groups: 'red, blue' }));
    expect(plan).toMatchObject({ design: 'single', rounds: 2, finishBy: '14:45', groups: ['red', 'blue'] });
    expect(plan === null ? 0 : runsOf(plan).length).toBe(12);
  });

  it('holds the ready questions, and gives them back as they were', () => {
    for (const plan of [anglePlan(3), lengthPlan(3), bladesPlan(3)]) {
      expect(readForm(formOf(plan)).plan).toEqual(plan);
    }
  });

  it('gives back a plan of two factors with reference, base and constants', () => {
    const typed = form({
      factors: [ANGLE, { kind: 'length', name: 'Length', unit: 'mm', levels: 'short 60; long 100', base: 'long, 100 mm' }],
      design: 'series',
      referenceEvery: '5',
      referenceAt: ['25°', ''],
      constants: [{ name: 'Fan', value: 'middle' }, { name: '', value: '' }],
    });
    const { plan } = readForm(typed);
    expect(plan?.reference).toEqual({ every: 5, levels: [1, 0] });
    expect(plan?.factors[1]?.baseLevel).toBe(1);
    expect(plan?.constants).toEqual([{ name: 'Fan', value: 'middle' }]);
    expect(plan === null ? null : readForm(formOf(plan)).plan).toEqual(plan);
  });

  it('says at its field what is in the way', () => {
    expect(problemsOf({ question: ' ' })).toEqual(['question: missing']);
    expect(problemsOf({ rounds: '0' })).toEqual(['rounds: not-a-count']);
    expect(problemsOf({ rounds: 'three' })).toEqual(['rounds: not-a-count']);
    expect(problemsOf({ finishBy: 'soon' })).toEqual(['finishBy: not-a-time']);
    expect(problemsOf({ factors: [{ ...ANGLE, levels: '' }] })).toEqual(['factors.0.levels: missing']);
    expect(problemsOf({ factors: [{ ...ANGLE, unit: 'mm' }] })).toEqual(['factors.0.unit: unit-unknown']);
    expect(problemsOf({ factors: [{ ...ANGLE, levels: '40' }] })).toEqual(['factors.0.levels: obstacle']);
    expect(problemsOf({ factors: [{ ...ANGLE, levels: '10 95' }] })).toEqual(['factors.0.levels: obstacle']);
    expect(problemsOf({ factors: [{ ...ANGLE, levels: '10 rad, 20 rad' }] })).toEqual(['factors.0.levels: unit-unknown']);
    expect(readForm(form({ factors: [{ ...ANGLE, levels: '10rad 20rad' }] })).problems[0]?.about).toBe('rad');
    expect(problemsOf({ factors: [{ ...ANGLE, levels: 'flat 10, steep 60 deg' }] })).toEqual([]);
    expect(problemsOf({ factors: [{ ...ANGLE, base: '33°' }] })).toEqual(['factors.0.base: level-unknown']);
    expect(problemsOf({ constants: [{ name: 'Fan', value: '' }] })).toEqual(['constants.0: half-empty']);
    expect(problemsOf({ referenceEvery: '1' })).toEqual(['reference: not-a-count']);
    expect(problemsOf({ rounds: '20', repeats: '5' , factors: [{ ...ANGLE, levels: '1 2 3 4 5' }] })).toEqual(['rounds: obstacle']);
  });

  it('says all of it at once, so that nobody has to ask again and again', () => {
    expect(problemsOf({ question: '', rounds: '', finishBy: '25:00' })).toEqual([
      'question: missing',
      'rounds: not-a-count',
      'finishBy: not-a-time',
    ]);
  });
});
