/** The plan as it stands in the form: all as it was typed, so that nothing typed is lost. */
import { z } from 'zod';
import { FACTOR_KINDS, type Factor, type Plan } from '#core/experiment/plan/plan.ts';
import { isNumeric, labelOf } from '#core/experiment/plan/factors.ts';
import { usualUnit } from './units.ts';

const FactorFormSchema = z.object({
  kind: z.enum(FACTOR_KINDS),
  name: z.string(),
  unit: z.string(),
  levels: z.string(),
  /** Label of the level that it is held at while another factor is varied; "": the first. */
  base: z.string(),
});
export type FactorForm = z.infer<typeof FactorFormSchema>;

export const PlanFormSchema = z.object({
  question: z.string(),
  factors: z.array(FactorFormSchema).min(1).max(3),
  /** With more than one factor: every combination, or one factor after the other. */
  design: z.enum(['factorial', 'series']),
  rounds: z.string(),
  repeats: z.string(),
  order: z.enum(['random', 'listed']),
  seed: z.number(),
  groups: z.string(),
  /** A reference run before every so many runs; "": none. */
  referenceEvery: z.string(),
  /** Labels of its levels, one for each factor; "": the first. */
  referenceAt: z.array(z.string()),
  constants: z.array(z.object({ name: z.string(), value: z.string() })),
  finishBy: z.string(),
});
export type PlanForm = z.infer<typeof PlanFormSchema>;

export function emptyFactor(): FactorForm {
  return { kind: 'own', name: '', unit: '', levels: '', base: '' };
}

/** Nothing but what nearly every plan has. */
export function emptyForm(seed: number): PlanForm {
  return {
    question: '',
    factors: [emptyFactor()],
    design: 'factorial',
    rounds: '3',
    repeats: '1',
    order: 'random',
    seed,
    groups: '',
    referenceEvery: '',
    referenceAt: [],
    constants: [],
    finishBy: '',
  };
}

/** A plan as a person would have typed it. */
export function formOf(plan: Plan): PlanForm {
  const { reference } = plan;
  return {
    question: plan.question,
    factors: plan.factors.map(factorFormOf),
    design: plan.design === 'series' ? 'series' : 'factorial',
    rounds: String(plan.rounds),
    repeats: String(plan.repeats),
    order: plan.order,
    seed: plan.seed,
    groups: plan.groups.join(', '),
    referenceEvery: reference === null ? '' : String(reference.every),
    referenceAt: plan.factors.map((factor, i) => labelOf(factor, reference?.levels[i] ?? 0)),
    constants: plan.constants.map(({ name, value }) => ({ name, value })),
    finishBy: plan.finishBy ?? '',
  };
}

function factorFormOf(factor: Factor): FactorForm {
  const unit = unitOf(factor);
  return {
    kind: factor.kind,
    name: factor.name,
    unit,
    levels: levelsText(factor, unit),
    base: factor.baseLevel === 0 ? '' : labelOf(factor, factor.baseLevel),
  };
}

const NUMBER_AND_UNIT = /(?:^|,\s)[−-]?\d[\d.,]*\s?(\D*)$/;

/** The unit that its labels end with, as far as all agree. */
function unitOf(factor: Factor): string {
  const units = new Set(factor.levels.map(({ label }) => NUMBER_AND_UNIT.exec(label)?.[1] ?? ''));
  const [unit = ''] = units;
  return isNumeric(factor) && units.size === 1 ? unit : usualUnit(factor.kind);
}

/** Numbers that need no name beside them; else the labels, with a mark that no label has. */
function levelsText({ levels }: Factor, unit: string): string {
  const numbers = levels.map(({ label }) =>
    unit !== '' && label.endsWith(unit) ? label.slice(0, -unit.length).trim() : label,
  );
  const arePlain = numbers.every((text) => /^[−-]?\d+([.,]\d+)?$/.test(text));
  return arePlain ? numbers.join(' ') : levels.map(({ label }) => label).join('; ');
}
