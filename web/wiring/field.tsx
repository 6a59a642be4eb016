/** One typed number: its name, its unit, and what is wrong with it. */
import { UNIT_SPACE } from '#core/metrology/format.ts';
import { fieldFault, FIELDS, type FieldName, type FieldSpec } from '#core/instrument/fields.ts';
import { withPointIn, type Form } from './form.ts';
import { useSpoken, type Spoken } from './speech.ts';

/** What is wrong with what is typed, in a sentence; null for a number that fits. */
function problemOf(form: Form, name: FieldName, { say, words }: Spoken): string | null {
  const typed = form.texts[name].value;
  const fault = fieldFault(name, withPointIn(form, typed));
  if (fault === null) return null;
  const { least, most, initial, unit }: FieldSpec = FIELDS[name];
  return say.fault[fault]({
    label: say.field[name],
    typed: typed.trim(),
    instance: words.number(initial),
    least: words.number(String(least)),
    most: `${words.number(String(most))}${UNIT_SPACE}${unitIn(say, unit)}`.trim(),
  });
}

function unitIn({ unit }: Spoken['say'], name: string): string {
  return name === 'bits' || name === 'counts' ? unit[name] : name;
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
  const spoken = useSpoken();
  const text = form.texts[name];
  const problem = problemOf(form, name, spoken);
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
      <span class="unit">{unit ?? unitIn(spoken.say, spec.unit)}</span>
    </span>
  );
}

function Problem({ form, name }: { form: Form; name: FieldName }) {
  const problem = problemOf(form, name, useSpoken());
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
  const { field } = useSpoken().say;
  return (
    <div class="field-row">
      <label for={idOf(name)}>{field[name]}</label>
      <Input form={form} name={name} {...(unit === undefined ? {} : { unit })} />
      {tolerance !== undefined && (
        <span class="tolerance">
          <label for={idOf(tolerance)}>
            <span aria-hidden="true">±</span>
            <span class="sr">{field[tolerance]}</span>
          </label>
          <Input form={form} name={tolerance} />
        </span>
      )}
      <Problem form={form} name={name} />
      {tolerance !== undefined && <Problem form={form} name={tolerance} />}
    </div>
  );
}
