/** What is typed on the wiring page, as signals; it leaves the page only when somebody says that the rig has it. */
import { signal, type ReadonlySignal, type Signal } from '@preact/signals';
import { FIELDS, type FieldName } from '#core/instrument/fields.ts';
import type { WiredQuantity } from '#core/instrument/channel.ts';
import type { Catalogue } from '../words/catalogue.ts';
import { typedWithPoint } from '../words/numbers.ts';
import { WIRING_KINDS, type WiringKind } from '../words/wiring-words.ts';

/** A row of the comparison: what meter and page showed at the same moment. */
export interface PointText {
  readonly meter: string;
  readonly page: string;
}

export interface Form {
  readonly kind: Signal<WiringKind>;
  /** Whose decimal sign may be typed. */
  readonly words: ReadonlySignal<Catalogue>;
  readonly texts: Readonly<Record<FieldName, Signal<string>>>;
  readonly monitorRange: Signal<string>;
  readonly quantity: Signal<WiredQuantity>;
  readonly points: Signal<readonly PointText[]>;
}

const EMPTY_POINT: PointText = { meter: '', page: '' };

export function createForm(words: ReadonlySignal<Catalogue>): Form {
  const names = Object.keys(FIELDS) as FieldName[];
  return {
    kind: signal<WiringKind>('divider'),
    words,
    texts: Object.fromEntries(
      names.map((name) => [name, signal<string>(FIELDS[name].initial)]),
    ) as Record<FieldName, Signal<string>>,
    monitorRange: signal('320'),
    quantity: signal<WiredQuantity>('voltage'),
    points: signal([EMPTY_POINT, EMPTY_POINT, EMPTY_POINT]),
  };
}

/** What was typed, with a decimal point. */
export function withPointIn(form: Form, typed: string): string {
  return typedWithPoint(typed, form.words.value.number);
}

/** All fields' texts as they stand, with a decimal point. */
export function textsOf(form: Form): Record<FieldName, string> {
  return Object.fromEntries(
    Object.entries(form.texts).map(([name, { value }]) => [name, withPointIn(form, value)]),
  ) as Record<FieldName, string>;
}

/** Puts a number, written with a point, into a field as the language writes it. */
export function writeField(form: Form, name: FieldName, decimal: string): void {
  form.texts[name].value = form.words.value.number(decimal);
}

/** What stands in the form is written anew when another language is chosen. */
export function followLanguage(form: Form): void {
  let before = form.words.value;
  form.words.subscribe((words) => {
    const anew = (typed: string): string => words.number(typedWithPoint(typed, before.number));
    for (const text of Object.values(form.texts)) text.value = anew(text.value);
    form.points.value = form.points.peek().map(({ meter, page }) => {
      return { meter: anew(meter), page: anew(page) };
    });
    before = words;
  });
}

export function setPoint(form: Form, row: number, part: keyof PointText, text: string): void {
  form.points.value = form.points.value.map((point, i) =>
    i === row ? { ...point, [part]: text } : point,
  );
}

export function addPoint(form: Form): void {
  form.points.value = [...form.points.value, EMPTY_POINT];
}

/** The part after # names the kind, so that documents can point at it. */
export function followAddress(form: Form): void {
  const take = (): void => {
    const named = WIRING_KINDS.find((kind) => `#${kind}` === location.hash);
    if (named !== undefined) form.kind.value = named;
  };
  take();
  addEventListener('hashchange', take);
  form.kind.subscribe((kind) => {
    if (location.hash !== `#${kind}`) history.replaceState(null, '', `#${kind}`);
  });
}
