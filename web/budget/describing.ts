/** Rotor and air in the making: what is typed stays, also into the next lesson. */
import { effect, signal, type Signal } from '@preact/signals';
import type { Factor } from '#core/experiment/plan/plan.ts';
import type { ExperimentView } from '#core/experiment/view.ts';
import { keep, recall } from '../view/kept.ts';
import { EMPTY_ROTOR_FORM, rotorFormOf, RotorFormSchema, type RigFieldName, type RotorForm } from './rotor-form.ts';

export interface Describing {
  readonly isShown: Signal<boolean>;
  readonly form: Signal<RotorForm>;
  /** Fields that have been left once. */
  readonly left: Signal<ReadonlySet<string>>;
  /** It was to be used though something is in the way. */
  readonly isTried: Signal<boolean>;
}

const DRAFT = 'rotor-draft';

export function createDescribing(): Describing {
  const form = signal(draftOf(recall(DRAFT)));
  effect(() => keep(DRAFT, JSON.stringify(form.value)));
  return { isShown: signal(false), form, left: signal(new Set()), isTried: signal(false) };
}

function draftOf(kept: string | null): RotorForm {
  try {
    return RotorFormSchema.parse(JSON.parse(kept ?? 'null'));
  } catch {
    return EMPTY_ROTOR_FORM;
  }
}

/** Unfolds the form, with what the session holds where nothing is typed; or folds it. */
export function toggleDescribing(
  describing: Describing,
  { rotorAndAir }: Pick<ExperimentView, 'rotorAndAir'>,
  number: (decimal: string) => string,
): void {
  describing.isShown.value = !describing.isShown.value;
  describing.isTried.value = false;
  const isBlank = describing.form.value.radius === '' && describing.form.value.hub === '';
  if (isBlank && rotorAndAir !== null) describing.form.value = rotorFormOf(rotorAndAir, number);
}

/** What the plan varies needs no saying. */
export function setByPlan({ plan }: Pick<ExperimentView, 'plan'>): ReadonlySet<RigFieldName> {
  const varied = plan?.factors.flatMap(({ kind }) => SET_BY[kind] ?? []) ?? [];
  return new Set(varied);
}

const SET_BY: Partial<Record<Factor['kind'], readonly RigFieldName[]>> = {
  angle: ['angle'],
  blades: ['blades'],
  load: ['loadResistance', 'lampVoltage', 'lampCurrent'],
};

/** Then each trial has a rotor of its own size. */
export function isLengthVaried({ plan }: Pick<ExperimentView, 'plan'>): boolean {
  return plan?.factors.some(({ key }) => key === 'length_m') ?? false;
}
