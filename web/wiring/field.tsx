/** One typed number: its name, its unit, and what is wrong with it. */
import { fieldSchema, FIELDS, type FieldName, type FieldSpec } from '#core/instrument/fields.ts';
import type { Form } from './form.ts';

export function problemOf(form: Form, name: FieldName): string | null {
  const result = fieldSchema(name).safeParse(form.texts[name].value);
  return result.success ? null : (result.error.issues[0]?.message ?? '');
}

/** Never a word that the address may have after its #: the browser would put the focus there. */
function idOf(name: FieldName): string {
  return `typed-${name}`;
}

interface FieldProps {
  readonly form: Form;
  readonly name: FieldName;
  /** Where the field's own unit is not all: mV or mA. */
  readonly unit?: string;
}

function Input({ form, name, unit }: FieldProps) {
  const text = form.texts[name];
  const problem = problemOf(form, name);
  const spec: FieldSpec = FIELDS[name];
  return (
    <span class="entry">
      <input
        id={idOf(name)}
        type="text"
        inputMode="decimal"
        autocomplete="off"
        spellcheck={false}
        value={text.value}
        aria-invalid={problem !== null}
        aria-describedby={problem === null ? undefined : `${idOf(name)}-problem`}
        onInput={(event) => (text.value = event.currentTarget.value)}
      />
      <span class="unit">{unit ?? spec.unit}</span>
    </span>
  );
}

function Problem({ form, name }: { form: Form; name: FieldName }) {
  const problem = problemOf(form, name);
  if (problem === null) return null;
  return (
    <p class="problem" id={`${idOf(name)}-problem`}>
      {problem}
    </p>
  );
}

/** A row: a value, and beside it the tolerance that belongs to it. */
export function Field({
  form,
  name,
  unit,
  tolerance,
}: FieldProps & { readonly tolerance?: FieldName }) {
  return (
    <div class="field-row">
      <label for={idOf(name)}>{FIELDS[name].label}</label>
      <Input form={form} name={name} {...(unit === undefined ? {} : { unit })} />
      {tolerance !== undefined && (
        <span class="tolerance">
          <label for={idOf(tolerance)}>
            <span aria-hidden="true">±</span>
            <span class="sr">{FIELDS[tolerance].label}</span>
          </label>
          <Input form={form} name={tolerance} />
        </span>
      )}
      <Problem form={form} name={name} />
      {tolerance !== undefined && <Problem form={form} name={tolerance} />}
    </div>
  );
}
