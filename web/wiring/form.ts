/** What is typed on the wiring page, as signals; it leaves the page only when somebody says that the rig has it. */
import { signal, type Signal } from '@preact/signals';
import { FIELDS, type FieldName } from '#core/instrument/fields.ts';
import type { WiredQuantity } from '#core/instrument/channel.ts';

export const KINDS = ['divider', 'shunt', 'monitor', 'meter'] as const;
export type Kind = (typeof KINDS)[number];

/** A row of the comparison: what meter and page showed at the same moment. */
export interface PointText {
  readonly meter: string;
  readonly page: string;
}

export interface Form {
  readonly kind: Signal<Kind>;
  readonly texts: Readonly<Record<FieldName, Signal<string>>>;
  readonly monitorRange: Signal<string>;
  readonly quantity: Signal<WiredQuantity>;
  readonly points: Signal<readonly PointText[]>;
}

const EMPTY_POINT: PointText = { meter: '', page: '' };

export function createForm(): Form {
  const names = Object.keys(FIELDS) as FieldName[];
  return {
    kind: signal<Kind>('divider'),
    texts: Object.fromEntries(
      names.map((name) => [name, signal<string>(FIELDS[name].initial)]),
    ) as Record<FieldName, Signal<string>>,
    monitorRange: signal('320'),
    quantity: signal<WiredQuantity>('voltage'),
    points: signal([EMPTY_POINT, EMPTY_POINT, EMPTY_POINT]),
  };
}

/** All fields' texts as they stand. */
export function textsOf(form: Form): Record<FieldName, string> {
  return Object.fromEntries(
    Object.entries(form.texts).map(([name, { value }]) => [name, value]),
  ) as Record<FieldName, string>;
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
    const named = KINDS.find((kind) => `#${kind}` === location.hash);
    if (named !== undefined) form.kind.value = named;
  };
  take();
  addEventListener('hashchange', take);
  form.kind.subscribe((kind) => {
    if (location.hash !== `#${kind}`) history.replaceState(null, '', `#${kind}`);
  });
}
