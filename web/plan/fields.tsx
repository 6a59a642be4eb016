/** Fields of the plan form: a label, what is typed on a rule, and what is in the way below it. */
import type { ComponentChildren } from 'preact';
import { planWarnings } from '#core/experiment/plan/obstacles.ts';
import type { Level } from '#core/experiment/plan/plan.ts';
import type { PageState } from '../view/page-state.ts';
import type { FormWords } from '../words/bench-words.ts';
import type { PlanForm } from './form.ts';
import { isShown } from './planning.ts';
import { levelsOf, type ReadForm } from './read-form.ts';

/** What any field needs of the form that it stands in. */
export interface FieldHelp {
  /** The field has been left: from now on its problem is shown. */
  leave(name: string): void;
  /** What is in the way at this field, in words; null when nothing is. */
  problemAt(name: string): string | null;
  /** Ties a field to the sentence below it. */
  aria(name: string): Aria;
}

interface Aria {
  'aria-invalid'?: 'true';
  'aria-describedby'?: string;
}

/** What every field of the plan needs. */
export interface Fields extends FieldHelp {
  readonly form: PlanForm;
  readonly say: FormWords;
  /** What is understood of each factor's levels. */
  readonly levels: readonly (readonly Level[])[];
  set(part: Partial<PlanForm>): void;
  /** What the plan will not be able to tell for what stands in this field; "" for nothing. */
  warningAt(name: string): string;
}

export function createFields(page: PageState, form: PlanForm, read: ReadForm): Fields {
  const { planning } = page.operator;
  const say = page.words.value.bench.form;
  const problemAt = (name: string): string | null => {
    const problem = read.problems.find((one) => one.field === name && isShown(planning, one));
    if (problem === undefined) return null;
    return problem.kind === 'obstacle'
      ? say.remark.obstacle[problem.obstacle](problem.about)
      : say.problem[problem.kind](problem.about);
  };
  const warnings = read.plan === null ? [] : planWarnings(read.plan);
  const warningAt = (name: string): string => {
    const warning = warnings.find(({ field }) => field === name);
    return warning === undefined ? '' : say.remark.warning[warning.kind](warning.about);
  };
  return {
    form,
    say,
    levels: form.factors.map(levelsOf),
    set: (part) => (planning.form.value = { ...form, ...part }),
    leave: (name) => (planning.left.value = new Set([...planning.left.value, name])),
    problemAt,
    warningAt,
    aria: (name) => ariaOf(name, problemAt(name)),
  };
}

export function ariaOf(name: string, problem: string | null): Aria {
  return problem === null ? {} : { 'aria-invalid': 'true', 'aria-describedby': problemId(name) };
}

function problemId(name: string): string {
  return `problem-${name}`;
}

interface FieldProps {
  readonly fields: FieldHelp;
  readonly name: string;
  readonly label: string;
  /** Said below it while nothing is in the way. */
  readonly hint?: string;
  readonly class?: string;
  readonly children?: ComponentChildren;
}

export function Field({ fields, name, label, hint = '', class: kind = '', children }: FieldProps) {
  const problem = fields.problemAt(name);
  return (
    <div class={`plan-field ${kind}`}>
      <span class="field-label soft">{label}</span>
      <div class="field-typed">{children}</div>
      {problem === null ? (
        hint !== '' && <p class="field-hint soft">{hint}</p>
      ) : (
        <p class="field-problem" id={problemId(name)}>
          {problem}
        </p>
      )}
    </div>
  );
}

interface TextFieldProps extends FieldProps {
  readonly value: string;
  readonly placeholder?: string;
  /** Shown instead of the label, where what stands around says the rest. */
  readonly shortLabel?: string;
  /** A number is wanted: phones show its keys. */
  readonly isDecimal?: boolean;
  readonly longest?: number;
  onValue(value: string): void;
}

export function TextField(props: TextFieldProps) {
  const { value, placeholder = '', onValue, children, shortLabel, ...field } = props;
  const { fields, name, label } = field;
  return (
    <Field {...field} label={shortLabel ?? label}>
      <input
        name={name}
        aria-label={label}
        inputMode={props.isDecimal === true ? 'decimal' : 'text'}
        maxLength={props.longest}
        autocomplete="off"
        spellcheck={false}
        placeholder={placeholder}
        value={value}
        {...fields.aria(name)}
        onInput={({ currentTarget }) => onValue(currentTarget.value)}
        onBlur={() => fields.leave(name)}
      />
      {children}
    </Field>
  );
}
