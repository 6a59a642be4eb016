/** What all panels are made of: what is typed on the left, what it comes to on the right. */
import type { ComponentChildren } from 'preact';
import type { z } from 'zod';
import { Field } from './field.tsx';
import { textsOf, type Form } from './form.ts';
import { NoAmount } from './result.tsx';

export interface PanelProps {
  readonly form: Form;
}

export function Panel({ typed, result }: { typed: ComponentChildren; result: ComponentChildren }) {
  return (
    <div class="panel">
      <form class="typed" onSubmit={(event) => event.preventDefault()}>
        {typed}
      </form>
      <section class="result" aria-label="What it comes to">
        {result}
      </section>
    </div>
  );
}

export function Group({ title, children }: { title: string; children: ComponentChildren }) {
  return (
    <fieldset>
      <legend>{title}</legend>
      {children}
    </fieldset>
  );
}

export function NothingYet() {
  return (
    <>
      <NoAmount />
      <p class="sentence">Nothing to say yet. Look at what is marked.</p>
    </>
  );
}

/** The design that the form describes; null while a field does not fit. */
export function parsed<Out>(
  schema: z.ZodType<Out, Record<string, unknown>>,
  form: Form,
): Out | null {
  const typed = { ...textsOf(form), monitorRange: form.monitorRange.value };
  return schema.safeParse(typed).data ?? null;
}

const CONVERTER_FIELDS = ['reference', 'referenceTolerance', 'bits', 'partsPerStep'] as const;
type ConverterTexts = Readonly<Record<(typeof CONVERTER_FIELDS)[number], string>>;

/** Our sketches' boards: what each has as reference, and how it divides a step. */
const BOARDS: readonly { readonly name: string; readonly texts: ConverterTexts }[] = [
  {
    name: '8-bit, 5 V',
    texts: { reference: '5', referenceTolerance: '5', bits: '10', partsPerStep: '64' },
  },
  {
    name: '32-bit, 3.3 V',
    texts: { reference: '3.3', referenceTolerance: '3', bits: '12', partsPerStep: '16' },
  },
];

function isTyped(form: Form, texts: ConverterTexts): boolean {
  return CONVERTER_FIELDS.every((field) => form.texts[field].value === texts[field]);
}

export function BoardFields({ form }: PanelProps) {
  return (
    <Group title="The board’s converter">
      <div class="choice" role="group" aria-label="Board">
        {BOARDS.map(({ name, texts }) => (
          <button
            type="button"
            key={name}
            aria-pressed={isTyped(form, texts)}
            onClick={() => {
              for (const field of CONVERTER_FIELDS) form.texts[field].value = texts[field];
            }}
          >
            {name}
          </button>
        ))}
      </div>
      <Field form={form} name="reference" tolerance="referenceTolerance" />
      <Field form={form} name="bits" />
      <Field form={form} name="partsPerStep" />
      <p class="hint">
        5 V from a USB port lie within 5 %. The sketch sends the mean of many conversions, in parts
        of a step: it resolves them where the signal’s noise spreads over more than a step.
      </p>
    </Group>
  );
}

/** A set of parts that can be bought, and a button that takes it into the form. */
export function Offer({ words, take }: { words: string; take: () => void }) {
  return (
    <p class="offer">
      <span>{words}</span>
      <button type="button" class="page-button" onClick={take}>
        Take it
      </button>
    </p>
  );
}
