/** Readings of the rig in the making: what is typed stays, also into the next lesson. */
import { effect, signal, type Signal } from '@preact/signals';
import type { ExperimentView } from '#core/experiment/view.ts';
import { keep, recall } from '../view/kept.ts';
import {
  EMPTY_FIT_FORM,
  FitFormSchema,
  isBlank,
  rowsOf,
  type FitForm,
  type FitRow,
  type Part,
} from './fit-form.ts';

export interface Fitting {
  readonly isShown: Signal<boolean>;
  readonly form: Signal<FitForm>;
  /** Fields that have been left once: "lamp.3.volts". */
  readonly left: Signal<ReadonlySet<string>>;
  /** Of which the readings were to be used though something is in the way. */
  readonly tried: Signal<Part | null>;
  /** What came of taking readings from the trials, for each part. */
  readonly taken: Signal<Partial<Readonly<Record<Part, string>>>>;
}

const DRAFT = 'fit-draft';

export function createFitting(): Fitting {
  const form = signal(draftOf(recall(DRAFT)));
  effect(() => keep(DRAFT, JSON.stringify(form.value)));
  return {
    isShown: signal(false),
    form,
    left: signal(new Set()),
    tried: signal<Part | null>(null),
    taken: signal({}),
  };
}

function draftOf(kept: string | null): FitForm {
  try {
    return FitFormSchema.parse(JSON.parse(kept ?? 'null'));
  } catch {
    return EMPTY_FIT_FORM;
  }
}

/** Unfolds the form, with the readings in use where nothing is typed; or folds it. */
export function toggleFitting(
  fitting: Fitting,
  { fits: { generator, lamp } }: Pick<ExperimentView, 'fits'>,
  number: (decimal: string) => string,
): void {
  fitting.isShown.value = !fitting.isShown.value;
  fitting.tried.value = null;
  fitting.taken.value = {};
  const form = fitting.form.value;
  const isFree = (rows: readonly FitRow[]): boolean => rows.every(isBlank);
  fitting.form.value = {
    ...form,
    ...(generator !== null &&
      isFree(form.generator) && {
        speed: generator.speed,
        generator: rowsOf(generator.steps, number),
      }),
    ...(lamp !== null && isFree(form.lamp) && { lamp: rowsOf(lamp.steps, number) }),
  };
}
