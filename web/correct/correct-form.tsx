/** Puts right what was read with a wrong calibration, or set to another level than was planned. */
import { useSignal } from '@preact/signals';
import { useLayoutEffect, useRef } from 'preact/hooks';
import { CORRECTABLE, type Correctable, type Line } from '#core/experiment/correction.ts';
import { LONGEST_TYPED } from '#core/experiment/keyed-form.ts';
import type { TrialView } from '#core/live-messages.ts';
import { decimalAt, firstPlace, scaled, UNIT_SPACE } from '#core/metrology/format.ts';
import { isPlayed } from '../model/bench.ts';
import { percentText } from '../model/budget.ts';
import { unitOf } from '../model/quantities.ts';
import { valueText } from '../model/trial-words.ts';
import { ariaOf, TextField, type FieldHelp } from '../plan/fields.tsx';
import type { PageState } from '../view/page-state.ts';
import { faultWords } from '../words/by-hand-words.ts';
import {
  alike,
  asCorrected,
  asMeasuredAgain,
  choicesFor,
  chosenTrials,
  draftFor,
  factorsOfTrial,
  isTypedFault,
  knownWithin,
  levelOfTrial,
  readDraft,
  type Draft,
  type Fault,
  type ReadDraft,
} from './correcting.ts';

interface Props {
  readonly page: PageState;
  readonly trial: TrialView;
}

/** What opens the form, and what was put right before. */
export function PutRight({ page, trial }: Props) {
  const isShown = useSignal(false);
  const { correct } = page.words.value.budget;
  const { plan } = page.bench.experiment.value;
  const [first] = choicesFor(trial, plan);
  if (first === undefined || isPlayed(page.bench)) return null;
  if (isShown.value) {
    return (
      <div class="put-right">
        <CorrectForm page={page} trial={trial} close={() => (isShown.value = false)} />
      </div>
    );
  }
  return (
    <div class="put-right">
      {trial.correction !== null && <p>{correct.was(measuredText(page, trial))}</p>}
      <button
        type="button"
        class="underlined"
        data-action="correct"
        onClick={() => (isShown.value = true)}
      >
        {correct.open}
      </button>
    </div>
  );
}

/** What was measured of all that was put right. */
function measuredText(page: PageState, trial: TrialView): string {
  const { correction } = trial;
  if (correction === null) return '';
  const measured = { ...trial, ...correction.measured };
  const quantities = CORRECTABLE.filter((one) => correction.by[one] !== undefined);
  return page.words.value.list(quantities.map((one) => textOf(page, measured, one)));
}

function textOf(page: PageState, trial: TrialView, quantity: Correctable | 'power_W'): string {
  return valueText(trial, quantity, page.prefixes.value, page.words.value);
}

function CorrectForm({ page, trial, close }: Props & { close(): void }) {
  const { operator, bench, words } = page;
  const { plan } = bench.experiment.value;
  const trials = bench.trials.value;
  const choices = choicesFor(trial, plan);
  const draft = useSignal(draftFor(trial, trials, choices[0] ?? ''));
  const isTried = useSignal(false);
  const field = useRef<HTMLFormElement>(null);
  useLayoutEffect(() => field.current?.querySelector('select')?.focus(), []);
  const say = words.value.budget.correct;
  const set = (part: Partial<Draft>): void => {
    draft.value = { ...draft.value, ...part };
  };
  const read = readDraft(draft.value, trial, { trials, plan, prefixes: page.prefixes.value });
  const faultAt = (name: string): string | null =>
    'fault' in read && isTried.value && read.at === name ? faultText(page, read.fault) : null;
  const fields: FieldHelp = {
    leave: () => (isTried.value ||= draft.value.truly !== ''),
    problemAt: faultAt,
    aria: (name) => ariaOf(name, faultAt(name)),
  };
  const submit = async (event: Event): Promise<void> => {
    event.preventDefault();
    isTried.value = true;
    if ('fault' in read || !(await operator.say(read.command))) return;
    close();
    const { command } = read;
    if (!draft.value.isFromNow || command.say !== 'correct') return;
    const { quantity, line } = command;
    const refusal = await page.wantOfBoard({ want: 'correction', quantity, line });
    if (refusal !== null) bench.trouble.value = refusal;
  };
  const isQuantity = CORRECTABLE.some((one) => one === draft.value.what);
  return (
    <form
      class="plan-form by-hand correct"
      aria-label={say.open}
      ref={field}
      noValidate
      onSubmit={(event) => void submit(event)}
      onKeyDown={(event) => {
        if (event.key !== 'Escape') return;
        event.stopPropagation();
        close();
      }}
    >
      <p class="soft">{say.hint}</p>
      <label>
        <span>{say.what}</span>{' '}
        <select
          name="what"
          value={draft.value.what}
          onChange={({ currentTarget }) => set({ what: currentTarget.value, truly: '' })}
        >
          {choices.map((what) => (
            <option key={what} value={what}>
              {nameOf(page, trial, what)}
            </option>
          ))}
        </select>
      </label>
      <p>{toldText(page, trial, draft.value)}</p>
      <TextField
        fields={fields}
        name="truly"
        label={say.truly}
        class="short"
        longest={LONGEST_TYPED}
        isDecimal={isQuantity}
        value={draft.value.truly}
        onValue={(truly) => set({ truly })}
      />
      {isQuantity && <Known page={page} fields={fields} draft={draft.value} set={set} />}
      {isQuantity && <Reach page={page} trial={trial} draft={draft.value} set={set} />}
      <Becomes page={page} trial={trial} draft={draft.value} read={read} />
      <p class="plan-end">
        <button type="submit" class="strong">
          {say.submit}
        </button>
        {trial.correction !== null && (
          <button
            type="button"
            class="underlined"
            data-action="as-measured"
            onClick={() => {
              const same = chosenTrials(draft.value, trial, trials);
              for (const command of asMeasuredAgain(trial, same)) void operator.say(command);
              close();
            }}
          >
            {say.asMeasured}
          </button>
        )}
        <button type="button" class="underlined" onClick={close}>
          {words.value.top.list.cancel}
        </button>
      </p>
    </form>
  );
}

function faultText(page: PageState, fault: Fault): string {
  const { correct } = page.words.value.budget;
  if (isTypedFault(fault)) return faultWords(page.words.value.bench.byHand.keyed.fault, fault);
  return correct.fault[fault.kind];
}

function nameOf(page: PageState, trial: TrialView, what: string): string {
  const quantity = CORRECTABLE.find((one) => one === what);
  if (quantity !== undefined) return page.words.value.quantity[quantity];
  const { plan } = page.bench.experiment.value;
  return factorsOfTrial(trial, plan).find(({ key }) => key === what)?.name ?? what;
}

/** What is there now: what the trial read, or the level that the plan says. */
function toldText(page: PageState, trial: TrialView, { what }: Draft): string {
  const say = page.words.value.budget.correct;
  const quantity = CORRECTABLE.find((one) => one === what);
  if (quantity !== undefined) {
    const measured = { ...trial, ...trial.correction?.measured };
    return say.read(trial.id, textOf(page, measured, quantity));
  }
  const { plan } = page.bench.experiment.value;
  const factor = plan?.factors.find(({ key }) => key === what);
  const level = factor && levelOfTrial(trial, factor);
  const trials = page.bench.trials.value.filter(
    (one) => factor !== undefined && levelOfTrial(one, factor) === level,
  );
  return say.planned(level?.label ?? '', trials.length);
}

interface KnownProps {
  readonly page: PageState;
  readonly fields: FieldHelp;
  readonly draft: Draft;
  set(part: Partial<Draft>): void;
}

/** How well it is known what it truly was. */
function Known({ page, fields, draft, set }: KnownProps) {
  const say = page.words.value.budget.correct;
  return (
    <>
      <TextField
        fields={fields}
        name="within"
        label={say.within}
        class="short"
        longest={LONGEST_TYPED}
        isDecimal
        value={draft.within}
        onValue={(within) => set({ within })}
      />
      {draft.within.trim() !== '' && (
        <p>
          {(['limits', 'standard'] as const).map((as) => (
            <label key={as} class="radio">
              <input
                type="radio"
                name="known-as"
                checked={draft.knownAs === as}
                onChange={() => set({ knownAs: as })}
              />
              {say.knownAs[as]}
            </label>
          ))}
        </p>
      )}
    </>
  );
}

interface PartProps extends Props {
  readonly draft: Draft;
}

/** How it was wrong, and in which trials. */
function Reach({ page, trial, draft, set }: PartProps & { set(part: Partial<Draft>): void }) {
  const say = page.words.value.budget.correct;
  const trials = alike(trial, page.bench.trials.value);
  const isRead = trial.origin === 'board' || trial.origin === 'simulated';
  const select = (end: 'first' | 'last') => (
    <select
      name={end}
      aria-label={say.range[end]}
      value={draft[end]}
      onChange={({ currentTarget }) => set({ [end]: Number(currentTarget.value) })}
    >
      {trials.map(({ id }) => (
        <option key={id} value={id}>
          {id}
        </option>
      ))}
    </select>
  );
  return (
    <>
      <p>
        {(['factor', 'amount'] as const).map((by) => (
          <label key={by} class="radio">
            <input
              type="radio"
              name="by"
              checked={draft.by === by}
              onChange={() => set({ by })}
            />
            {say.by[by]}
          </label>
        ))}
      </p>
      <p>
        {say.trials} {select('first')} {say.to} {select('last')}
      </p>
      {isRead && (
        <label class="radio">
          <input
            type="checkbox"
            name="from-now"
            checked={draft.isFromNow}
            onChange={({ currentTarget }) => set({ isFromNow: currentTarget.checked })}
          />
          {say.fromNow}
        </label>
      )}
    </>
  );
}

/** "Known to ±2.0 %." */
function knownText(page: PageState, quantity: Correctable, line: Line): string {
  const within = knownWithin(line);
  if (within === null) return '';
  const words = page.words.value;
  if ('share' in within) return words.budget.correct.known(percentText(within.share, words));
  const prefix = page.prefixes.value[quantity];
  const amount = scaled(within.amount, prefix.exponent);
  const text = words.number(decimalAt(amount, firstPlace(amount) - 1));
  return words.budget.correct.known(`${text}${UNIT_SPACE}${unitOf(quantity, prefix)}`);
}

/** The trial before and after, and how many change with it. */
function Becomes({ page, trial, draft, read }: PartProps & { readonly read: ReadDraft }) {
  const say = page.words.value.budget.correct;
  const quantity = CORRECTABLE.find((one) => one === draft.what);
  if ('fault' in read) return null;
  if (quantity === undefined || read.line === null) return <p>{say.together(read.trials.length)}</p>;
  const after = asCorrected(trial, quantity, read.line);
  const pairs = [quantity, ...(quantity === 'windSpeed_mps' ? [] : (['power_W'] as const))];
  const changes = pairs.map((one) => `${textOf(page, trial, one)} → ${textOf(page, after, one)}`);
  return (
    <p role="status">
      {say.becomes(trial.id, page.words.value.list(changes))} {knownText(page, quantity, read.line)}{' '}
      {say.together(read.trials.length)}
    </p>
  );
}
