/** What every field for keyed readings needs of the form that it stands in. */
import type { KeyedRemark } from '#core/experiment/keyed-form.ts';
import { ariaOf, type FieldHelp } from '../plan/fields.tsx';
import type { PageState } from '../view/page-state.ts';
import { faultWords, type KeyedWords } from '../words/by-hand-words.ts';
import { isShown, type Draft } from './keying.ts';

export interface KeyedFields extends FieldHelp {
  readonly draft: Draft;
  readonly say: KeyedWords;
  set(part: Partial<Draft>): void;
  /** From the first reading on they are for the run that was shown then. */
  setRow(place: number, part: Partial<Draft['readings'][number]>): void;
}

export function fieldsOf(
  page: PageState,
  given: { readonly runId: string | null; readonly remarks: readonly KeyedRemark[] },
): KeyedFields {
  const { keying } = page.operator;
  const say = page.words.value.bench.byHand.keyed;
  const draft = keying.draft.value;
  const problemAt = (name: string): string | null => {
    const remark = given.remarks.find((one) => one.field === name && isShown(keying, one));
    return remark === undefined ? null : faultWords(say.fault, remark.fault);
  };
  return {
    draft,
    say,
    set: (part) => (keying.draft.value = { ...draft, ...part }),
    setRow: (place, part) => {
      const readings = draft.readings.map((row, i) => (i === place ? { ...row, ...part } : row));
      keying.draft.value = { ...draft, readings, runId: given.runId, isBound: true };
    },
    leave: (name) => (keying.left.value = new Set([...keying.left.value, name])),
    problemAt,
    aria: (name) => ariaOf(name, problemAt(name)),
  };
}
