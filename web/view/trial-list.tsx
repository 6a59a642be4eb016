/** The trials, newest first: result with its uncertainty, state in words, and what can be done. */
import { useEffect, useLayoutEffect, useRef } from 'preact/hooks';
import {
  decimalAt,
  expandedUncertainty,
  firstPlace,
  NO_VALUE,
  placeOf,
  scaled,
  UNIT_SPACE,
  writeMeasured,
} from '#core/metrology/format.ts';
import type { TrialView } from '#core/live-messages.ts';
import { unitOf, type Prefixes, type Shown } from '../model/quantities.ts';
import { markFormOf } from '../draw/trial-marks.ts';
import { chosenTrial, type PageState } from './page-state.ts';

const HEADS = ['Trial', 'Power', 'Voltage', 'Current', 'Wind'] as const;

export function TrialList({ page }: { page: PageState }) {
  const trials = [...page.bench.trials.value].reverse();
  const name = page.bench.status.value?.session.name;
  return (
    <section class="trials" aria-label={name === undefined ? 'Trials' : `Trials of ${name}`}>
      <div class="scroller" role="table" aria-label="Trials" tabIndex={0}>
        <div class="row heads soft" role="row">
          {HEADS.map((head) => (
            <span key={head} role="columnheader">
              {head}
            </span>
          ))}
          <span role="columnheader" class="state">
            <span class="sr">State</span>
          </span>
          <span role="columnheader">
            <span class="sr">Actions</span>
          </span>
        </div>
        {trials.map((trial) => (
          <TrialRow key={trial.id} page={page} trial={trial} />
        ))}
      </div>
      {trials.length === 0 && <p class="empty soft">Trials will be listed here.</p>}
    </section>
  );
}

function TrialRow({ page, trial }: { page: PageState; trial: TrialView }) {
  const row = useRef<HTMLDivElement>(null);
  const isChosen = chosenTrial(page)?.id === trial.id;
  const isOpen = page.bench.loggedTrial.value?.id === trial.id;
  const editing = page.editing.value;
  const isEditing = editing?.trialId === trial.id;
  const prefixes = page.prefixes.value;
  useEffect(() => {
    if (isChosen) showInList(row.current);
  }, [isChosen]);
  const classes = ['row', trial.struck && 'struck', isChosen && 'chosen', isOpen && 'open'];
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
      <span role="cell" class="power-cell">
        <Value of={trial}>{powerText(trial, prefixes)}</Value>
      </span>
      {(['voltage_V', 'current_A', 'windSpeed_mps'] as const).map((quantity) => (
        <span key={quantity} role="cell">
          <Value of={trial}>{valueText(trial, quantity, prefixes)}</Value>
        </span>
      ))}
      {isEditing ? (
        <span role="cell" class="editor">
          <ReasonForm page={page} trial={trial} kind={editing.kind} />
        </span>
      ) : (
        <>
          <span role="cell" class="state soft" title={stateWords(trial)}>
            {stateWords(trial)}
          </span>
          <span role="cell" class="actions">
            <RowButtons page={page} trial={trial} isChosen={isChosen} />
          </span>
        </>
      )}
    </div>
  );
}

/** What is struck is struck through, and said to be so. */
function Value({ of, children }: { of: TrialView; children: preact.ComponentChildren }) {
  return of.struck ? <s>{children}</s> : <>{children}</>;
}

function powerText({ power_W }: TrialView, prefixes: Prefixes): string {
  if (power_W === null) return NO_VALUE;
  const { value, uncertainty, unit } = writeMeasured(power_W, {
    unit: 'W',
    prefix: prefixes.power_W,
  });
  return `${value} ± ${uncertainty}${UNIT_SPACE}${unit}`;
}

/** Most digits of a value whose uncertainty is not shown beside it. */
const MOST_DIGITS = 4;

function valueText(trial: TrialView, quantity: Shown, prefixes: Prefixes): string {
  const measured = trial[quantity];
  if (measured === null) return NO_VALUE;
  const prefix = prefixes[quantity];
  const value = scaled(measured.value, prefix.exponent);
  const U = expandedUncertainty(measured);
  const finest = value === 0 ? -2 : firstPlace(value) - MOST_DIGITS + 1;
  const place = U === null ? finest + 1 : Math.max(placeOf(scaled(U, prefix.exponent)), finest);
  return `${decimalAt(value, place)}${UNIT_SPACE}${unitOf(quantity, prefix)}`;
}

export function stateWords(trial: TrialView): string {
  const form = markFormOf(trial);
  const words = [
    trial.struck && (trial.strikeReason === null ? 'struck' : `struck: ${trial.strikeReason}`),
    trial.simulated && 'simulated',
    trial.state === 'interrupted' && (form === 'cut' ? 'cut off too soon' : 'cut off'),
    trial.rotorStill && 'did not turn',
    trial.state === 'logged' && 'goes on',
    trial.note !== null && trial.note,
  ];
  return words.filter((word) => word !== false).join(' · ');
}

function RowButtons({
  page,
  trial,
  isChosen,
}: {
  page: PageState;
  trial: TrialView;
  isChosen: boolean;
}) {
  const keyed = isChosen ? 'keyed' : '';
  return (
    <>
      {trial.struck ? (
        <button
          type="button"
          class={keyed}
          aria-label={`Restore trial ${trial.id}`}
          onClick={() => page.act({ kind: 'restore', trialId: trial.id })}
        >
          Re<b>s</b>tore
        </button>
      ) : (
        <button
          type="button"
          class={keyed}
          aria-label={`Strike trial ${trial.id}`}
          onClick={() => (page.editing.value = { trialId: trial.id, kind: 'strike' })}
        >
          <b>S</b>trike
        </button>
      )}
      <button
        type="button"
        class={keyed}
        aria-label={`Note on trial ${trial.id}`}
        onClick={() => (page.editing.value = { trialId: trial.id, kind: 'note' })}
      >
        <b>N</b>ote
      </button>
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
  // Before the next key is read: its letter belongs into the field.
  useLayoutEffect(() => field.current?.focus(), []);
  const close = (): void => {
    page.editing.value = null;
  };
  const submit = (event: Event): void => {
    event.preventDefault();
    const text = field.current?.value.trim() ?? '';
    page.act(
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
          kind === 'strike' ? `Why is trial ${trial.id} struck?` : `Note on trial ${trial.id}`
        }
        placeholder={kind === 'strike' ? 'why?' : 'note'}
        defaultValue={kind === 'note' ? (trial.note ?? '') : ''}
      />
      <button type="submit" class="strong">
        {kind === 'strike' ? 'Strike' : 'Keep'}
      </button>
      <button type="button" onClick={close}>
        Cancel
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
