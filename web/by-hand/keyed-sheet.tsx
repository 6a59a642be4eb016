/** Readings of two meters: unfolds in the page, below the band. */
import { useLayoutEffect, useRef } from 'preact/hooks';
import { LONGEST_TYPED, readKeyedForm } from '#core/experiment/keyed-form.ts';
import { keyedTrial, MOST_READINGS, type KeyedReadings } from '#core/experiment/keyed.ts';
import { labelOf, runById } from '../model/experiment.ts';
import { resultText } from '../model/words.ts';
import { Field, TextField } from '../plan/fields.tsx';
import type { PageState } from '../view/page-state.ts';
import { fieldsOf, type KeyedFields } from './keyed-fields.ts';
import { clearReadings, emptyRow, runToKey } from './keying.ts';
import { Meters } from './meters.tsx';
import { Apart, isOwnBench, OtherWay } from './own-bench.tsx';

export function KeyedSheet({ page }: { page: PageState }) {
  const { isShown } = page.operator.keying;
  if (!isShown.value) return null;
  const { heading } = page.words.value.bench.byHand.keyed;
  const isOwn = isOwnBench(page.bench.status.value);
  return (
    <section class="plan-form by-hand" id="key-in" aria-label={heading}>
      {isOwn ? <KeyedFormView page={page} /> : <Apart page={page} />}
    </section>
  );
}

function KeyedFormView({ page }: { page: PageState }) {
  const sheet = useRef<HTMLFormElement>(null);
  const { operator, words, bench } = page;
  const { keying } = operator;
  const experiment = bench.experiment.value;
  const draft = keying.draft.value;
  const runId = runToKey(draft, experiment);
  const { isBound: _isBound, ...form } = draft;
  const read = readKeyedForm({ ...form, runId });
  const remarks = 'remarks' in read ? read.remarks : [];
  const fields = fieldsOf(page, { runId, remarks });
  const { keyed } = words.value.bench.byHand;
  const focusOn = (name: string): void => {
    sheet.current?.querySelector<HTMLElement>(`[name="${name}"]`)?.focus();
  };
  // Before the next key is read: it belongs into the field.
  useLayoutEffect(() => sheet.current?.querySelector('input')?.focus(), []);
  const log = async (event: Event): Promise<void> => {
    event.preventDefault();
    keying.isTried.value = true;
    if ('remarks' in read) {
      const [first] = read.remarks;
      if (first?.field.startsWith('meters') === true) keying.metersShown.value = true;
      // The field may only be there once the page has been drawn with it.
      requestAnimationFrame(() => focusOn(first?.field ?? ''));
      return;
    }
    if (!(await operator.say({ say: 'key-in', ...read.readings }))) return;
    clearReadings(keying);
    focusOn('readings.0.voltage');
  };
  return (
    <form
      ref={sheet}
      noValidate
      onSubmit={(event) => void log(event)}
      onKeyDown={(event) => event.key === 'Escape' && (keying.isShown.value = false)}
    >
      <RunChoice page={page} runId={runId} fields={fields} />
      <Meters page={page} fields={fields} />
      <Readings fields={fields} />
      <Result page={page} readings={'readings' in read ? read.readings : null} />
      <p class="plan-end">
        <button type="submit" class="strong">
          {keyed.log}
        </button>
        <button type="button" class="underlined" onClick={() => (keying.isShown.value = false)}>
          {words.value.bench.close}
        </button>
        <OtherWay page={page} to="bring-in" />
        {keying.isTried.value && remarks.length > 0 && (
          <b role="alert">{keyed.toMend(remarks.length)}</b>
        )}
      </p>
    </form>
  );
}

interface Parts {
  readonly page: PageState;
  readonly fields: KeyedFields;
}

/** Which run it is for; the next one unless somebody says otherwise. */
function RunChoice({ page, runId, fields }: Parts & { readonly runId: string | null }) {
  const experiment = page.bench.experiment.value;
  const { plan, runs } = experiment;
  if (plan === null) return null;
  const { bench, plan: planWords } = page.words.value;
  const { keyed } = bench.byHand;
  const trialId = runById(experiment, runId)?.trialIds[0];
  return (
    <Field
      fields={fields}
      name="run"
      label={keyed.forRun}
      hint={trialId === undefined ? '' : keyed.hasTrial(trialId)}
    >
      <select
        name="run"
        aria-label={keyed.forRun}
        value={runId ?? ''}
        onChange={({ currentTarget }) =>
          fields.set({ runId: currentTarget.value || null, isBound: true })
        }
      >
        {runs.map((run) => (
          <option key={run.id} value={run.id}>
            {bench.run.named(run.round, labelOf(plan, run))}
            {run.group === null ? '' : ` · ${run.group}`}
            {run.trialIds.length === 0 ? '' : ` · ${planWords.done}`}
          </option>
        ))}
        <option value="">{keyed.noRun}</option>
      </select>
    </Field>
  );
}

function Readings({ fields }: Pick<Parts, 'fields'>) {
  const { draft, setRow, set, say } = fields;
  const { readings, meters, didNotTurn, note } = draft;
  const quantities = (['voltage', 'current', 'windSpeed'] as const).filter(
    (name) => meters[name] !== null,
  );
  return (
    <div class="readings">
      <p class="soft">{say.together}</p>
      <ol>
        {readings.map((row, place) => (
          <li key={place}>
            {quantities.map((name) => (
              <TextField
                key={name}
                fields={fields}
                name={`readings.${place}.${name}`}
                label={`${say.reading(place + 1)}, ${say.meter[name]}`}
                shortLabel={`${say.meter[name]}, ${meters[name]?.unit ?? ''}`}
                class="short"
                isDecimal
                longest={LONGEST_TYPED}
                value={row[name]}
                onValue={(value) => setRow(place, { [name]: value })}
              />
            ))}
          </li>
        ))}
      </ol>
      <p class="more">
        {readings.length < MOST_READINGS && (
          <button
            type="button"
            class="underlined"
            onClick={() => set({ readings: [...readings, emptyRow()] })}
          >
            {say.addReading}
          </button>
        )}
        <label class="radio">
          <input
            type="checkbox"
            name="didNotTurn"
            checked={didNotTurn}
            onChange={({ currentTarget }) => set({ didNotTurn: currentTarget.checked })}
          />
          {say.didNotTurn}
        </label>
      </p>
      <TextField
        fields={fields}
        name="note"
        label={say.note}
        value={note}
        longest={500}
        onValue={(text) => set({ note: text })}
      />
    </div>
  );
}

/** What will be logged, as far as it can be read already. */
function Result({ page, readings }: { page: PageState; readings: KeyedReadings | null }) {
  const { byHand } = page.words.value.bench;
  const { power_W, sampleCount } = readings === null ? NOTHING : keyedTrial(readings);
  if (power_W === null) return <p class="result" role="status" />;
  const { oneReading, severalReadings } = byHand.keyed;
  return (
    <p class="result" role="status">
      <b>{page.words.value.page.power(resultText(power_W, page.prefixes.value, page.words.value))}</b>
      {sampleCount > 0 && (
        <span class="soft"> {sampleCount === 1 ? oneReading : severalReadings(sampleCount)}</span>
      )}
    </p>
  );
}

const NOTHING = { power_W: null, sampleCount: 0 };
