/** The form for rotor and air: typed once, used for all trials of the session. */
import { LONGEST_TYPED } from '#core/experiment/keyed-form.ts';
import { UNIT_SPACE } from '#core/metrology/format.ts';
import { concludeGenerator } from '#core/rotor/fitting/generator-readings.ts';
import type { RigFits } from '#core/rotor/fitting/rig-fits.ts';
import { emfText, ohmsText } from '../model/fit-text.ts';
import { ariaOf, Field, TextField, type FieldHelp } from '../plan/fields.tsx';
import type { PageState } from '../view/page-state.ts';
import type { Catalogue } from '../words/catalogue.ts';
import type { WindWords } from '../words/wind-words.ts';
import { isLengthVaried, setByPlan } from './describing.ts';
import {
  heardText,
  readRotorForm,
  RIG_FIELDS,
  ringRadii_mm,
  type RotorFieldName,
  type RotorForm,
  type RotorProblem,
  withoutFields,
} from './rotor-form.ts';

const NUMBERS = ['radius', 'hub', 'temperature', 'humidity', 'pressure', 'altitude'] as const;
const KINDS = ['unknown', 'vane', 'cups'] as const;

export function RotorFields({ page }: { page: PageState }) {
  const { operator } = page;
  const { describing } = operator;
  const { wind: say, list, number } = page.words.value;
  const form = describing.form.value;
  const isVaried = isLengthVaried(page.bench.experiment.value);
  const isSet = setByPlan(page.bench.experiment.value);
  const read = readRotorForm(withoutFields(form, isSet), isVaried);
  const problems = 'problems' in read ? read.problems : {};
  const fields = helpOf(page, problems);
  const set = (part: Partial<RotorForm>): void => {
    describing.form.value = { ...form, ...part };
  };
  const use = async (event: Event): Promise<void> => {
    event.preventDefault();
    describing.isTried.value = true;
    if ('problems' in read) return;
    const isTaken = await operator.say({ say: 'rotor-and-air', described: read.described });
    if (isTaken) describing.isShown.value = false;
  };
  const radii = ringRadii_mm(form);
  const where = radii && `${list(radii.map(String))}${UNIT_SPACE}mm`;
  const hints = hintsOf(say, isVaried);
  const { airs, fits } = page.bench.experiment.value;
  const figures = figuresText(fits, page.words.value);
  const heard = (name: RotorFieldName): string | null => {
    const text = heardText(name, airs);
    return text === null ? null : say.hint.heard(number(text.replace('-', '−')));
  };
  const text = (name: Exclude<RotorFieldName, 'anemometer'>, hint?: string) => (
    <TextField
      key={name}
      fields={fields}
      name={name}
      label={say.field[name]}
      hint={hint ?? heard(name) ?? figures[name] ?? hints[name] ?? ''}
      isDecimal={name !== 'rings'}
      longest={name === 'rings' ? 100 : LONGEST_TYPED}
      value={form[name]}
      onValue={(value) => set({ [name]: value })}
    />
  );
  return (
    <form class="plan-form rotor-form" noValidate onSubmit={(event) => void use(event)}>
      {NUMBERS.map((name) => text(name))}
      <Field fields={fields} name="anemometer" label={say.field.anemometer}>
        <select
          name="anemometer"
          aria-label={say.field.anemometer}
          value={form.anemometer}
          onChange={({ currentTarget }) => {
            const kind = KINDS.find((one) => one === currentTarget.value);
            if (kind !== undefined) set({ anemometer: kind });
          }}
        >
          {KINDS.map((kind) => (
            <option key={kind} value={kind}>
              {say.anemometer[kind]}
            </option>
          ))}
        </select>
      </Field>
      {text('rings', where === null ? say.hint.ringsFirst : say.hint.rings(where))}
      {text('atPlace')}
      <p class="form-part">{say.forWhy}</p>
      {RIG_FIELDS.filter((name) => !isSet.has(name)).map((name) => text(name))}
      <p class="plan-end">
        <button type="submit" class="strong">
          {say.use}
        </button>
      </p>
    </form>
  );
}

function helpOf(
  { operator, words }: PageState,
  problems: Partial<Record<string, RotorProblem>>,
): FieldHelp {
  const { left, isTried } = operator.describing;
  const problemAt = (name: string): string | null => {
    const problem = problems[name];
    if (problem === undefined) return null;
    // What is still missing is no mistake before all is meant to be there.
    const isLate = left.value.has(name) && !['needed', 'together'].includes(problem.kind);
    return isLate || isTried.value ? problemText(problem, words.value) : null;
  };
  return {
    leave: (name) => (left.value = new Set([...left.value, name])),
    problemAt,
    aria: (name) => ariaOf(name, problemAt(name)),
  };
}

function hintsOf({ hint }: WindWords, isVaried: boolean): Partial<Record<RotorFieldName, string>> {
  return {
    ...(isVaried ? { radius: hint.lengthVaried } : { hub: hint.hub }),
    altitude: hint.altitude,
    humidity: hint.humidity,
    wind: hint.wind,
    emf: hint.emf,
    ripples: hint.ripples,
    friction: hint.friction,
    loadResistance: hint.load,
  };
}

/** What was fitted to readings stands beside what is typed, because it counts. */
function figuresText(
  { generator, lamp }: RigFits,
  words: Catalogue,
): Partial<Record<RotorFieldName, string>> {
  const found = generator === null ? null : concludeGenerator(generator);
  const { fitted, fittedLamp } = words.wind.hint;
  const [constant, winding] = [found?.emfConstant_Vsprad, found?.resistance_Ohm];
  return {
    ...(constant && { emf: fitted(emfText(constant, words)) }),
    ...(winding && { winding: fitted(ohmsText(winding, words)) }),
    ...(lamp !== null && { loadResistance: fittedLamp }),
  };
}

function problemText(problem: RotorProblem, { wind, number }: Catalogue): string {
  if (problem.kind !== 'between') return wind.problem[problem.kind];
  const written = (value: number): string => number(String(value).replace('-', '−'));
  return wind.problem.between(written(problem.low), written(problem.high));
}
