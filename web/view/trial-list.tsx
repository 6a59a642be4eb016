/** The trials, newest first: result with its uncertainty, state in words, and what can be done. */
import { useEffect, useLayoutEffect, useRef } from 'preact/hooks';
import { NO_VALUE } from '#core/metrology/format.ts';
import { levelWords } from '#core/experiment/plan/factors.ts';
import type { Plan } from '#core/experiment/plan/plan.ts';
import type { TrialView } from '#core/live-messages.ts';
import { doubtWords } from '../model/doubt-words.ts';
import { stateWords, valueText } from '../model/trial-words.ts';
import { resultText } from '../model/words.ts';
import { actionFor } from './actions.ts';
import { chosenTrial, type PageState } from './page-state.ts';
import { Key } from './run-line.tsx';

const QUANTITIES = ['power_W', 'voltage_V', 'current_A', 'windSpeed_mps'] as const;

export function TrialList({ page }: { page: PageState }) {
  const trials = [...page.bench.trials.value].reverse();
  const name = page.bench.status.value?.session.name;
  const { bench, quantity, top } = page.words.value;
  const { list } = top;
  const { heads } = bench.trial;
  const hasPlan = page.bench.experiment.value.plan !== null;
  return (
    <section
      class={hasPlan ? 'trials planned' : 'trials'}
      aria-label={name === undefined ? list.trials : list.trialsOf(name)}
    >
      <div class="scroller" role="table" aria-label={list.trials} tabIndex={0}>
        <div class="row heads soft" role="row">
          <span role="columnheader">{heads.trial}</span>
          {hasPlan && (
            <span role="columnheader" class="set">
              {heads.set}
            </span>
          )}
          {QUANTITIES.map((one) => (
            <span key={one} role="columnheader" class={`of-${one}`}>
              {quantity[one]}
            </span>
          ))}
          <span role="columnheader" class="state">
            <span class="sr">{heads.state}</span>
          </span>
          <span role="columnheader">
            <span class="sr">{heads.actions}</span>
          </span>
        </div>
        {trials.map((trial) => (
          <TrialRow key={trial.id} page={page} trial={trial} />
        ))}
      </div>
      {trials.length === 0 && <p class="empty soft">{list.empty}</p>}
      <Undo page={page} />
    </section>
  );
}

/** What was done last, and can be taken back. */
function Undo({ page }: { page: PageState }) {
  const { undoes } = page.bench.experiment.value;
  const undo = actionFor(page, 'undo');
  if (undoes === null || undo === null) return null;
  const { trial } = page.words.value.bench;
  return (
    <button type="button" class="undo underlined" onClick={undo}>
      {trial.undo}: {trial.undoes[undoes.what](undoes.trialId)}
      <Key>Z</Key>
    </button>
  );
}

/** "242.03 ± 0.2 mW" fits its column, a digit more does not. */
const LONG_RESULT = 16;

function TrialRow({ page, trial }: { page: PageState; trial: TrialView }) {
  const row = useRef<HTMLDivElement>(null);
  const isChosen = chosenTrial(page)?.id === trial.id;
  const isOpen = page.bench.loggedTrial.value?.id === trial.id;
  const editing = page.editing.value;
  const isEditing = editing?.trialId === trial.id;
  const prefixes = page.prefixes.value;
  const words = page.words.value;
  const { plan } = page.bench.experiment.value;
  const setTo = plan === null ? null : setWords(page, plan, trial);
  useEffect(() => {
    if (isChosen) showInList(row.current);
  }, [isChosen]);
  const state = stateWords(trial, page.words.value.top.list);
  const doubts = doubtWords(page.bench.experiment.value, trial, words);
  const result = trial.power_W === null ? NO_VALUE : resultText(trial.power_W, prefixes, words);
  const isLong = result.length >= LONG_RESULT;
  const classes = [
    'row',
    trial.struck && 'struck',
    isChosen && 'chosen',
    isOpen && 'open',
    state !== '' && 'told',
  ];
  return (
    <div
      class={classes.filter(Boolean).join(' ')}
      role="row"
      ref={row}
      data-trial={trial.id}
      {...(isChosen ? { 'aria-current': 'true' as const } : {})}
      onClick={() => (page.chosenId.value = trial.id)}
    >
      <span role="cell" class="id">
        <Value of={trial}>{trial.id}</Value>
      </span>
      {setTo !== null && (
        <span role="cell" class={setTo.isKnown ? 'set' : 'set stray'} title={setTo.words}>
          <Value of={trial}>{setTo.words}</Value>
        </span>
      )}
      <span role="cell" class={`power-cell of-power_W${isLong ? ' long' : ''}`}>
        <Result page={page} trial={trial} text={result} />
      </span>
      {(['voltage_V', 'current_A', 'windSpeed_mps'] as const).map((quantity) => (
        <span key={quantity} role="cell" class={`of-${quantity}`}>
          <Value of={trial}>{valueText(trial, quantity, prefixes, words)}</Value>
        </span>
      ))}
      {isEditing ? (
        <span role="cell" class="editor">
          <ReasonForm page={page} trial={trial} kind={editing.kind} />
        </span>
      ) : (
        <>
          <span role="cell" class="state soft" title={state}>
            {state}
          </span>
          <span role="cell" class="actions">
            <RowButtons page={page} trial={trial} isChosen={isChosen} />
          </span>
        </>
      )}
      {doubts !== '' && (
        <span role="cell" class="doubt">
          {doubts}
        </span>
      )}
    </div>
  );
}

interface ResultProps {
  readonly page: PageState;
  readonly trial: TrialView;
  readonly text: string;
}

/** Its power, which opens where the ± comes from. */
function Result({ page, trial, text }: ResultProps) {
  if (trial.power_W === null) return <Value of={trial}>{text}</Value>;
  const words = page.words.value;
  const isOpen = page.budgetOfId.value === trial.id;
  return (
    <button
      type="button"
      class="why"
      title={words.budget.open(trial.id)}
      aria-expanded={isOpen}
      onClick={() => (page.budgetOfId.value = isOpen ? null : trial.id)}
    >
      <Value of={trial}>{text}</Value>
    </button>
  );
}

/** What the rig was set to for it; a trial that no run has is told apart in words and by form. */
function setWords(
  { bench, words }: PageState,
  plan: Plan,
  trial: TrialView,
): { words: string; isKnown: boolean } {
  const run = bench.experiment.value.runs.find(({ id }) => id === trial.runId);
  if (run === undefined) return { words: words.value.bench.trial.noRun, isKnown: false };
  return { words: levelWords(plan, run), isKnown: true };
}

/** What is struck is struck through, and said to be so. */
function Value({ of, children }: { of: TrialView; children: preact.ComponentChildren }) {
  return of.struck ? <s>{children}</s> : <>{children}</>;
}

interface RowButtonsProps {
  readonly page: PageState;
  readonly trial: TrialView;
  readonly isChosen: boolean;
}

function RowButtons({ page, trial, isChosen }: RowButtonsProps) {
  const say = page.words.value.bench.trial;
  const offered = [
    ['strike', trial.struck ? say.restore : say.strike],
    ['again', say.again],
    ['note', say.note],
    ['move', say.move],
  ] as const;
  return (
    <>
      {offered.map(([name, words]) => {
        const action = actionFor(page, name, trial);
        if (action === null) return null;
        return (
          <button
            key={name}
            type="button"
            class={isChosen ? 'keyed' : ''}
            aria-label={say.named(words, trial.id)}
            onClick={action}
          >
            {words}
          </button>
        );
      })}
    </>
  );
}

interface ReasonFormProps {
  readonly page: PageState;
  readonly trial: TrialView;
  readonly kind: 'strike' | 'note';
}

function ReasonForm({ page, trial, kind }: ReasonFormProps) {
  const field = useRef<HTMLInputElement>(null);
  const say = page.words.value.top.list;
  // Before the next key is read: its letter belongs into the field.
  useLayoutEffect(() => field.current?.focus(), []);
  const close = (): void => {
    page.editing.value = null;
  };
  const submit = (event: Event): void => {
    event.preventDefault();
    const text = field.current?.value.trim() ?? '';
    page.operator.act(
      kind === 'strike'
        ? { kind, trialId: trial.id, reason: text }
        : { kind, trialId: trial.id, text },
    );
    close();
  };
  return (
    <form onSubmit={submit} onKeyDown={(event) => event.key === 'Escape' && close()}>
      <input
        ref={field}
        maxLength={kind === 'strike' ? 200 : 500}
        aria-label={
          kind === 'strike' ? say.whyStruck(trial.id) : say.noteOn(trial.id)
        }
        placeholder={kind === 'strike' ? say.why : say.note}
        defaultValue={kind === 'note' ? (trial.note ?? '') : ''}
      />
      <button type="submit" class="strong">
        {kind === 'strike' ? page.words.value.bench.trial.strike : say.keep}
      </button>
      <button type="button" onClick={close}>
        {say.cancel}
      </button>
    </form>
  );
}

/** Scrolls the list alone: on a phone the whole page would jump away from what is going on. */
function showInList(row: HTMLElement | null): void {
  const list = row?.closest<HTMLElement>('.scroller');
  if (!row || !list) return;
  const above = list.getBoundingClientRect().top - row.getBoundingClientRect().top;
  const below = row.getBoundingClientRect().bottom - list.getBoundingClientRect().bottom;
  if (above > 0) list.scrollTop -= above;
  else if (below > 0) list.scrollTop += below;
}
