/** What is changed, and to which levels, as a teacher types them. */
import { FACTOR_KINDS } from '#core/experiment/plan/plan.ts';
import type { FactorForm } from './form.ts';
import { Field, TextField, type Fields } from './fields.tsx';
import { usualUnit } from './units.ts';

export function FactorFields({ fields, place }: { fields: Fields; place: number }) {
  const { form, say, set } = fields;
  const factor = form.factors[place];
  if (factor === undefined) return null;
  const field = `factors.${place}`;
  const change = (part: Partial<FactorForm>): void =>
    set({ factors: form.factors.map((one, i) => (i === place ? { ...one, ...part } : one)) });
  const takeOut = (): void =>
    set({
      factors: form.factors.filter((_, i) => i !== place),
      referenceAt: form.referenceAt.filter((_, i) => i !== place),
    });
  return (
    <fieldset class="factor">
      <legend class="sr">{say.factor(place + 1)}</legend>
      <Field fields={fields} name={`${field}.kind`} label={say.factor(place + 1)}>
        <select
          name={`${field}.kind`}
          aria-label={say.factor(place + 1)}
          value={factor.kind}
          onChange={({ currentTarget }) => change(ofKind(fields, factor, currentTarget.value))}
        >
          {FACTOR_KINDS.map((kind) => (
            <option key={kind} value={kind}>
              {say.kind[kind]}
            </option>
          ))}
        </select>
        {form.factors.length > 1 && (
          <button type="button" class="underlined" onClick={takeOut}>
            {say.takeOut}
          </button>
        )}
      </Field>
      <div class="name-and-unit">
        <TextField
          fields={fields}
          name={`${field}.name`}
          label={say.name}
          value={factor.name}
          onValue={(name) => change({ name })}
        />
        <TextField
          fields={fields}
          name={`${field}.unit`}
          label={say.unit}
          class="short"
          value={factor.unit}
          onValue={(unit) => change({ unit })}
        />
      </div>
      <Levels fields={fields} place={place} factor={factor} change={change} />
      {form.design === 'series' && form.factors.length > 1 && (
        <HeldAt fields={fields} place={place} factor={factor} change={change} />
      )}
    </fieldset>
  );
}

/** Name and unit follow the kind until they have been changed by hand. */
function ofKind({ say }: Fields, factor: FactorForm, chosen: string): Partial<FactorForm> {
  const kind = FACTOR_KINDS.find((one) => one === chosen) ?? 'own';
  const usual = (of: FactorForm['kind']): string =>
    of === 'own' ? '' : say.kind[of].charAt(0).toUpperCase() + say.kind[of].slice(1);
  const isUsual = factor.name.trim() === '' || factor.name === usual(factor.kind);
  const isUsualUnit = factor.unit === '' || factor.unit === usualUnit(factor.kind);
  return {
    kind,
    name: isUsual ? usual(kind) : factor.name,
    unit: isUsualUnit ? usualUnit(kind) : factor.unit,
  };
}

interface LevelsProps {
  readonly fields: Fields;
  readonly place: number;
  readonly factor: FactorForm;
  change(part: Partial<FactorForm>): void;
}

function Levels({ fields, place, factor, change }: LevelsProps) {
  const { say, warningAt } = fields;
  const field = `factors.${place}.levels`;
  const levels = fields.levels[place] ?? [];
  const understood = say.understood(levels.length, levels.map(({ label }) => label).join(' · '));
  return (
    <TextField
      fields={fields}
      name={field}
      label={say.levels}
      class="levels-field"
      placeholder={say.levelsHint}
      hint={levels.length === 0 ? '' : `${understood}\n${warningAt(field)}`.trim()}
      value={factor.levels}
      onValue={(text) => change({ levels: text })}
    />
  );
}

/** The level that it stays at while another factor is varied. */
function HeldAt({ fields, place, factor, change }: LevelsProps) {
  const levels = fields.levels[place] ?? [];
  const field = `factors.${place}.base`;
  return (
    <Field fields={fields} name={field} label={fields.say.heldAt}>
      <select
        name={field}
        aria-label={fields.say.heldAt}
        value={factor.base || levels[0]?.label}
        onChange={({ currentTarget }) => change({ base: currentTarget.value })}
      >
        {levels.map(({ label }) => (
          <option key={label}>{label}</option>
        ))}
      </select>
    </Field>
  );
}
