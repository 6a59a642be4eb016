/** Readings that are being keyed in: what is typed stays, also when the page is loaded again. */
import { effect, signal, type Signal } from '@preact/signals';
import {
  KeyedFormSchema,
  meterForms,
  type KeyedForm,
  type KeyedRemark,
  type MeterForm,
} from '#core/experiment/keyed-form.ts';
import type { ExperimentView } from '#core/experiment/view.ts';
import { runById } from '../model/experiment.ts';
import { keep, recall } from '../view/kept.ts';

const DraftSchema = KeyedFormSchema.extend({
  /** The run was chosen, or readings were begun for it; else it is the one that comes next. */
  isBound: KeyedFormSchema.shape.didNotTurn,
});
export type Draft = ReturnType<typeof DraftSchema.parse>;

export interface Keying {
  readonly isShown: Signal<boolean>;
  readonly draft: Signal<Draft>;
  /** Whether the fields for the meters are unfolded. */
  readonly metersShown: Signal<boolean>;
  /** Fields that have been left once. */
  readonly left: Signal<ReadonlySet<string>>;
  /** It was to be logged though something is in the way. */
  readonly isTried: Signal<boolean>;
}

const KEPT = 'keyed-draft';
/** More readings tell more, and three are a beginning. */
const ROWS = 3;

const NO_METER = { range: '', lastDigit: '', percent: '', counts: '' };
export const NO_WIND_METER: MeterForm = { unit: 'm/s', ...NO_METER };
const NO_METERS: KeyedForm['meters'] = {
  voltage: { unit: 'V', ...NO_METER },
  current: { unit: 'mA', ...NO_METER },
  windSpeed: null,
};

export function emptyRow(): KeyedForm['readings'][number] {
  return { voltage: '', current: '', windSpeed: '' };
}

function emptyDraft(meters: KeyedForm['meters']): Draft {
  const readings = Array.from({ length: ROWS }, emptyRow);
  return { runId: null, isBound: false, meters, readings, didNotTurn: false, note: '' };
}

export function createKeying(): Keying {
  const draft = signal(draftOf(recall(KEPT)));
  effect(() => keep(KEPT, JSON.stringify(draft.value)));
  return {
    isShown: signal(false),
    draft,
    metersShown: signal(false),
    left: signal(new Set()),
    isTried: signal(false),
  };
}

function draftOf(kept: string | null): Draft {
  try {
    return DraftSchema.parse(JSON.parse(kept ?? 'null'));
  } catch {
    return emptyDraft(NO_METERS);
  }
}

/** Unfolds the form, with the meters that the session knows where none are typed; or folds it. */
export function toggleKeying(keying: Keying, { meters }: ExperimentView): void {
  keying.isShown.value = !keying.isShown.value;
  if (!keying.isShown.value) return;
  const { draft } = keying;
  const isBlank = draft.value.meters.voltage.range === '';
  if (isBlank && meters !== null) draft.value = { ...draft.value, meters: meterForms(meters) };
  keying.metersShown.value = draft.value.meters.voltage.range === '';
}

/** Ready for the next run's readings, of the same meters. */
export function clearReadings(keying: Keying): void {
  keying.draft.value = emptyDraft(keying.draft.value.meters);
  keying.left.value = new Set();
  keying.isTried.value = false;
  keying.metersShown.value = false;
}

/** The run that the readings are for: the one chosen or begun, else the next; null: none. */
export function runToKey({ isBound, runId }: Draft, experiment: ExperimentView): string | null {
  if (experiment.plan === null) return null;
  if (isBound && (runId === null || runById(experiment, runId) !== null)) return runId;
  const atWork = runById(experiment, experiment.runId);
  return atWork?.trialIds.length === 0 ? atWork.id : experiment.nextRunId;
}

/** Whether a remark is shown: once it has been tried, or its field was left with something in it. */
export function isShown({ isTried, left }: Keying, { field, fault }: KeyedRemark): boolean {
  return isTried.value || (left.value.has(field) && fault.kind !== 'empty');
}
