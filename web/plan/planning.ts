/** The plan form in hand: whether it is unfolded, what is typed, and where problems are shown yet. */
import { effect, signal, type Signal } from '@preact/signals';
import {
  LARGEST_PLAN_bytes,
  PLAN_FILE,
  readPlanFile,
  type PlanFileFault,
} from '#core/experiment/plan/plan-file.ts';
import type { ExperimentView } from '#core/experiment/view.ts';
import { LARGEST_ARCHIVE_bytes, textInArchive } from '../view/archive.ts';
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
  /** What is wrong with the file that a plan was to be taken from. */
  readonly fileFault: Signal<PlanFileFault | null>;
}

const DRAFT = 'plan-draft';

export function createPlanning(): Planning {
  const form = signal(draftOf(recall(DRAFT)));
  effect(() => keep(DRAFT, form.value === null ? null : JSON.stringify(form.value)));
  return {
    isShown: signal(false),
    form,
    left: signal(new Set()),
    isTried: signal(false),
    fileFault: signal<PlanFileFault | null>(null),
  };
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
  planning.fileFault.value = null;
}

/** Puts the plan of a session's file, or of a plan.json, into the form: nothing is started by it. */
export async function takePlanOf(planning: Planning, file: File): Promise<void> {
  const read = readPlanFile(await textIn(file));
  if ('plan' in read) fill(planning, formOf(read.plan));
  else planning.fileFault.value = read.fault;
}

/** Null for what is far too large, or no text. */
async function textIn(file: File): Promise<string | null> {
  const isSession = /\.zip$/i.test(file.name);
  if (file.size > (isSession ? LARGEST_ARCHIVE_bytes : LARGEST_PLAN_bytes)) return null;
  if (!isSession) return file.text();
  const bytes = new Uint8Array(await file.arrayBuffer());
  return textInArchive(bytes, PLAN_FILE, LARGEST_PLAN_bytes);
}

/** Whether a problem is shown: once it has been tried, or its field was left with something in it. */
export function isShown({ isTried, left }: Planning, { field, kind }: FormProblem): boolean {
  return isTried.value || (left.value.has(field) && kind !== 'missing');
}
