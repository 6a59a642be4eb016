/** The plan in the making: unfolds in the page, below the band, so that logging stays in sight. */
import { useLayoutEffect, useRef } from 'preact/hooks';
import { timeUntil_s } from '#core/experiment/plan/duration.ts';
import { anglePlan, bladesPlan, lengthPlan } from '#core/experiment/plan/templates.ts';
import type { PageState } from '../view/page-state.ts';
import { useTimeOfDay_s } from '../view/use-time-of-day.ts';
import { readTimeOfDay } from './counts-and-times.ts';
import { emptyFactor, formOf, type PlanForm } from './form.ts';
import { FactorFields } from './factor-fields.tsx';
import { createFields, Field, TextField, type Fields } from './fields.tsx';
import { PlanPreview } from './plan-preview.tsx';
import { fill, newSeed, takePlanOf } from './planning.ts';
import { readForm } from './read-form.ts';

export function PlanSheet({ page }: { page: PageState }) {
  const { isShown, form } = page.operator.planning;
  if (!isShown.value || form.value === null) return null;
  return <PlanFormView page={page} form={form.value} />;
}

const READY = { angle: anglePlan, length: lengthPlan, blades: bladesPlan } as const;

function PlanFormView({ page, form }: { page: PageState; form: PlanForm }) {
  const sheet = useRef<HTMLFormElement>(null);
  const { operator, words } = page;
  const { planning } = operator;
  const say = words.value.bench.form;
  const read = readForm(form);
  const fields = createFields(page, form, read);
  // Before the next key is read: it belongs into the question.
  useLayoutEffect(() => focusOn(sheet.current, 'question'), []);
  const start = async (event: Event): Promise<void> => {
    event.preventDefault();
    planning.isTried.value = true;
    if (read.plan === null) {
      focusOn(sheet.current, read.problems[0]?.field);
      return;
    }
    if (await operator.say({ say: 'plan', plan: read.plan })) close();
  };
  const close = (): void => {
    fill(planning, null);
    planning.isShown.value = false;
  };
  const end = async (): Promise<void> => {
    if (await operator.say({ say: 'plan', plan: null })) close();
  };
  const hasPlan = page.bench.experiment.value.plan !== null;
  return (
    <form
      class="plan-form"
      id="plan"
      ref={sheet}
      aria-label={say.heading}
      noValidate
      onSubmit={(event) => void start(event)}
      onKeyDown={(event) => event.key === 'Escape' && (planning.isShown.value = false)}
    >
      <div class="plan-what">
        <p class="ready">
          <span class="soft">{say.startFrom}</span>
          {(['angle', 'length', 'blades'] as const).map((kind) => (
            <button
              key={kind}
              type="button"
              class="underlined"
              onClick={() => fill(planning, formOf(READY[kind](newSeed(), say.template)))}
            >
              {say.ready[kind]}
            </button>
          ))}
        </p>
        <PlanOfFile page={page} />
        <Question fields={fields} />
        {form.factors.map((_, place) => (
          <FactorFields key={place} fields={fields} place={place} />
        ))}
        <MoreFactors fields={fields} />
        <Constants fields={fields} />
      </div>
      <div class="plan-how">
        <Rounds fields={fields} />
      </div>
      <PlanPreview page={page} read={read} />
      <p class="plan-end">
        <button type="submit" class="strong">
          {hasPlan ? say.change : say.start}
        </button>
        {hasPlan && (
          <button type="button" class="underlined" onClick={() => void end()}>
            {say.end}
          </button>
        )}
        <button type="button" class="underlined" onClick={() => (planning.isShown.value = false)}>
          {words.value.bench.close}
        </button>
        {hasPlan && <span class="soft">{say.stays}</span>}
        {planning.isTried.value && read.problems.length > 0 && (
          <b role="alert">{say.toMend(read.problems.length)}</b>
        )}
      </p>
    </form>
  );
}

/** Another group's plan, so that nobody has to type it a second time. */
function PlanOfFile({ page }: { page: PageState }) {
  const { planning } = page.operator;
  const say = page.words.value.bench.form;
  const fault = planning.fileFault.value;
  return (
    <p class="ready">
      <label class="file-field">
        {say.ofFile}{' '}
        <input
          type="file"
          name="plan-file"
          accept=".zip,.json"
          aria-describedby={fault === null ? undefined : 'plan-file-fault'}
          onChange={({ currentTarget }) => {
            const [file] = currentTarget.files ?? [];
            if (file !== undefined) void takePlanOf(planning, file);
            currentTarget.value = '';
          }}
        />
      </label>
      {fault !== null && (
        <b role="alert" id="plan-file-fault">
          {say.fileFault[fault]}
        </b>
      )}
    </p>
  );
}

function focusOn(sheet: HTMLElement | null, field: string | undefined): void {
  if (field === undefined) return;
  sheet?.querySelector<HTMLElement>(`[name="${field}"]`)?.focus();
}

function Question({ fields }: { fields: Fields }) {
  const { form, set, say } = fields;
  return (
    <TextField
      fields={fields}
      name="question"
      label={say.question}
      class="question-field"
      value={form.question}
      onValue={(question) => set({ question })}
    />
  );
}

/** A second and a third factor, and how they are gone through together. */
function MoreFactors({ fields }: { fields: Fields }) {
  const { form, set, say } = fields;
  const count = form.factors.length;
  return (
    <>
      {count > 1 && (
        <Field fields={fields} name="design" label={say.together}>
          {(['factorial', 'series'] as const).map((design) => (
            <label key={design} class="radio">
              <input
                type="radio"
                name="design"
                checked={form.design === design}
                onChange={() => set({ design })}
              />
              {say.design[design]}
            </label>
          ))}
        </Field>
      )}
      {count < 3 && (
        <p class="more">
          <button
            type="button"
            class="underlined"
            onClick={() => set({ factors: [...form.factors, emptyFactor()] })}
          >
            {say.addFactor}
          </button>
        </p>
      )}
    </>
  );
}

function Rounds({ fields }: { fields: Fields }) {
  const { form, set, say, warningAt } = fields;
  return (
    <>
      <TextField
        fields={fields}
        name="rounds"
        label={say.rounds}
        class="short"
        hint={warningAt('rounds') || say.roundsHint}
        value={form.rounds}
        onValue={(rounds) => set({ rounds })}
      />
      <Field fields={fields} name="order" label={say.order} hint={warningAt('order')}>
        {(['random', 'listed'] as const).map((order) => (
          <label key={order} class="radio">
            <input
              type="radio"
              name="order"
              checked={form.order === order}
              onChange={() => set({ order })}
            />
            {say.orders[order]}
          </label>
        ))}
      </Field>
      <FinishBy fields={fields} />
      <TextField
        fields={fields}
        name="repeats"
        label={say.repeats}
        class="short"
        hint={say.repeatsHint}
        value={form.repeats}
        onValue={(repeats) => set({ repeats })}
      />
      <Reference fields={fields} />
      <TextField
        fields={fields}
        name="groups"
        label={say.groups}
        placeholder={say.groupsHint}
        value={form.groups}
        onValue={(groups) => set({ groups })}
      />
    </>
  );
}

function FinishBy({ fields: { form, set, say }, fields }: { fields: Fields }) {
  const now_s = useTimeOfDay_s();
  const time = readTimeOfDay(form.finishBy);
  const isPast = time !== null && timeUntil_s(time, now_s) <= 0;
  return (
    <TextField
      fields={fields}
      name="finishBy"
      label={say.finishBy}
      class="short"
      placeholder="14:45"
      hint={isPast ? say.bellIsPast(time) : ''}
      value={form.finishBy}
      onValue={(finishBy) => set({ finishBy })}
    />
  );
}

function Reference({ fields }: { fields: Fields }) {
  const { form, set, say, levels } = fields;
  return (
    <TextField
      fields={fields}
      name="reference"
      label={say.reference}
      class="short"
      hint={say.referenceHint}
      value={form.referenceEvery}
      onValue={(referenceEvery) => set({ referenceEvery })}
    >
      {form.referenceEvery.trim() !== '' &&
        form.factors.map((factor, place) => (
          <select
            key={place}
            aria-label={`${say.reference}: ${factor.name || say.factor(place + 1)}`}
            value={form.referenceAt[place] || levels[place]?.[0]?.label}
            onChange={({ currentTarget }) =>
              set({
                referenceAt: form.factors.map((_, i) =>
                  i === place ? currentTarget.value : (form.referenceAt[i] ?? ''),
                ),
              })
            }
          >
            {levels[place]?.map(({ label }) => <option key={label}>{label}</option>)}
          </select>
        ))}
    </TextField>
  );
}

/** Name and value of what is not to change; always one empty row to type into. */
function Constants({ fields }: { fields: Fields }) {
  const { form, set, say } = fields;
  const rows = [...form.constants, { name: '', value: '' }].slice(0, 12);
  const change = (place: number, part: Partial<{ name: string; value: string }>): void => {
    const constants = rows.map((row, i) => (i === place ? { ...row, ...part } : row));
    set({ constants: constants.filter(({ name, value }) => `${name}${value}` !== '') });
  };
  return (
    <fieldset class="constants">
      <legend class="soft">{say.constants}</legend>
      {rows.map(({ name, value }, place) => (
        <Field key={place} fields={fields} name={`constants.${place}`} label="">
          <input
            name={`constants.${place}`}
            aria-label={`${say.constantName} ${place + 1}`}
            placeholder={say.constantName}
            value={name}
            {...fields.aria(`constants.${place}`)}
            onInput={({ currentTarget }) => change(place, { name: currentTarget.value })}
            onBlur={() => fields.leave(`constants.${place}`)}
          />
          <input
            aria-label={`${say.constantValue} ${place + 1}`}
            placeholder={say.constantValue}
            value={value}
            onInput={({ currentTarget }) => change(place, { value: currentTarget.value })}
            onBlur={() => fields.leave(`constants.${place}`)}
          />
        </Field>
      ))}
    </fieldset>
  );
}
