/** What all panels are made of: what is typed on the left, what it comes to on the right. */
import type { ComponentChildren } from 'preact';
import type { z } from 'zod';
import { Field } from './field.tsx';
import { textsOf, withPointIn, writeField, type Form } from './form.ts';
import { NoAmount } from './result.tsx';
import { useSpoken } from './speech.ts';

export interface PanelProps {
  readonly form: Form;
}

export function Panel({ typed, result }: { typed: ComponentChildren; result: ComponentChildren }) {
  const { say } = useSpoken();
  return (
    <div class="panel">
      <form class="typed" onSubmit={(event) => event.preventDefault()}>
        {typed}
      </form>
      <section class="result" aria-label={say.result}>
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
      <p class="sentence">{useSpoken().say.nothingYet}</p>
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
const BOARDS = {
  of8bit: { reference: '5', referenceTolerance: '5', bits: '10', partsPerStep: '64' },
  of32bit: { reference: '3.3', referenceTolerance: '3', bits: '12', partsPerStep: '16' },
} as const satisfies Readonly<Record<string, ConverterTexts>>;
const BOARD_NAMES = ['of8bit', 'of32bit'] as const;

function isTyped(form: Form, texts: ConverterTexts): boolean {
  return CONVERTER_FIELDS.every((field) => {
    return withPointIn(form, form.texts[field].value) === texts[field];
  });
}

export function BoardFields({ form }: PanelProps) {
  const say = useSpoken().say.form;
  return (
    <Group title={say.converter}>
      <div class="choice" role="group" aria-label={say.board}>
        {BOARD_NAMES.map((name) => (
          <button
            type="button"
            key={name}
            aria-pressed={isTyped(form, BOARDS[name])}
            onClick={() => {
              for (const field of CONVERTER_FIELDS) writeField(form, field, BOARDS[name][field]);
            }}
          >
            {say.boards[name]}
          </button>
        ))}
      </div>
      <Field form={form} name="reference" tolerance="referenceTolerance" />
      <Field form={form} name="bits" />
      <Field form={form} name="partsPerStep" />
      <p class="hint">{say.boardHint}</p>
    </Group>
  );
}

/** A set of parts that can be bought, and a button that takes it into the form. */
export function Offer({ words, take }: { words: string; take: () => void }) {
  return (
    <p class="offer">
      <span>{words}</span>
      <button type="button" class="page-button" onClick={take}>
        {useSpoken().say.offer.take}
      </button>
    </p>
  );
}
