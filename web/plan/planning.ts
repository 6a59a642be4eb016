/** The plan form in hand: whether it is unfolded, what is typed, and where problems are shown yet. */
import { effect, signal, type Signal } from '@preact/signals';
import type { ExperimentView } from '#core/experiment/view.ts';
import { keep, recall } from '../view/kept.ts';
import { emptyForm, formOf, PlanFormSchema, type PlanForm } from './form.ts';
import type { FormProblem } from './read-form.ts';

export interface Planning {
  readonly isShown: Signal<boolean>;
  /** As typed, also while folded and after the page was loaded again; null: nothing yet. */
  readonly form: Signal<PlanForm | null>;
  /** Fields that have been left once. */
  readonly left: Signal<ReadonlySet<string>>;
  /** The plan was to be started though something is in its way. */
  readonly isTried: Signal<boolean>;
}

const DRAFT = 'plan-draft';

export function createPlanning(): Planning {
  const form = signal(draftOf(recall(DRAFT)));
  effect(() => keep(DRAFT, form.value === null ? null : JSON.stringify(form.value)));
  return { isShown: signal(false), form, left: signal(new Set()), isTried: signal(false) };
}

function draftOf(kept: string | null): PlanForm | null {
  try {
    return PlanFormSchema.parse(JSON.parse(kept ?? 'null'));
  } catch {
    return null;
  }
}

/** A seed for a plan of its own order; what it was stands in the plan. */
export function newSeed(): number {
  return crypto.getRandomValues(new Uint32Array(1))[0] ?? 0;
}

interface HasPlanning {
  readonly operator: { readonly planning: Planning };
  readonly bench: { readonly experiment: { readonly value: ExperimentView } };
}

/** Unfolds the form with what was typed last, else with the plan that there is; or folds it. */
export function togglePlan({ operator: { planning }, bench }: HasPlanning): void {
  const { plan } = bench.experiment.value;
  planning.isShown.value = !planning.isShown.value;
  if (!planning.isShown.value || planning.form.value !== null) return;
  fill(planning, plan === null ? emptyForm(newSeed()) : formOf(plan));
}

/** Puts something else in place of what is typed. */
export function fill(planning: Planning, form: PlanForm | null): void {
  planning.form.value = form;
  planning.left.value = new Set();
  planning.isTried.value = false;
}

/** Whether a problem is shown: once it has been tried, or its field was left with something in it. */
export function isShown({ isTried, left }: Planning, { field, kind }: FormProblem): boolean {
  return isTried.value || (left.value.has(field) && kind !== 'missing');
}
