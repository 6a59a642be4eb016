/**
 * What a phone with a pass may do, for thumbs: each button keeps its place whether there is
 * something for it to do or not, so that nobody hits another one because the page moved.
 */
import { operatorMaySay } from '#core/operator-rights.ts';
import { labelOf } from '../model/experiment.ts';
import type { StrikeReason } from '../words/network-words.ts';
import { actionFor, type ActionName } from '../view/actions.ts';
import { chosenTrial } from '../view/page-state.ts';
import { openQuestion } from '../view/question-line.tsx';
import { Outcome } from './outcome.tsx';
import type { PhoneState } from './phone-state.ts';

export function OperatePanel({ page }: { page: PhoneState }) {
  const { pass, words, editing } = page;
  const say = words.value.network.phone;
  if (pass.name.value === null) return null;
  return (
    <section class="operate" aria-label={say.controls}>
      <p class="who">
        <b>{say.youAre(pass.name.value)}</b>
        <button type="button" class="quiet" onClick={() => void pass.giveBack()}>
          {say.giveBack}
        </button>
      </p>
      <Asked page={page} />
      {editing.value === null ? <Controls page={page} /> : <Reasons page={page} />}
      <Outcome page={page} />
    </section>
  );
}

/** The question that the tool asks, with the answers that a phone can give. */
function Asked({ page }: { page: PhoneState }) {
  const open = openQuestion(page);
  if (open === null) return null;
  return (
    <div class="asked">
      <p>{open.asked}</p>
      <div class="touch">
        {open.answers
          .filter(({ isOnRail }) => isOnRail !== true)
          .map(({ words, give }) => (
            <button key={words} type="button" class="strong" onClick={give}>
              {words}
            </button>
          ))}
      </div>
    </div>
  );
}

function Controls({ page }: { page: PhoneState }) {
  return (
    <div class="touch">
      {controlsOf(page).map(([name, words]) => {
        const act = name === 'undo' && !mayUndo(page) ? null : actionFor(page, name);
        return (
          <button
            key={name}
            type="button"
            data-action={name}
            disabled={act === null}
            onClick={() => act?.()}
          >
            {words}
          </button>
        );
      })}
    </div>
  );
}

/** What was done at the bench alone is taken back there alone. */
function mayUndo({ bench }: PhoneState): boolean {
  return operatorMaySay('undo', bench.experiment.value.undoes);
}

/** In their order on the page; what is meant is named, so that nobody strikes what they did not see. */
function controlsOf(page: PhoneState): readonly (readonly [ActionName, string])[] {
  const { plan, runs, runId, isWaiting, isCovered, undoes } = page.bench.experiment.value;
  const { network, bench } = page.words.value;
  const trial = chosenTrial(page);
  const label = (id: string | null): string => {
    const run = runs.find((one) => one.id === id);
    return plan === null || run === undefined ? '–' : labelOf(plan, run);
  };
  const { strike, restore } = network.phone;
  return [
    ['next', bench.run.isSet],
    ['log', bench.run.logNow],
    ['wait', isWaiting ? bench.run.goOn : bench.run.wait],
    ['strike', trial === null ? bench.trial.strike : (trial.struck ? restore : strike)(trial.id)],
    ['again', network.phone.again(label(trial?.runId ?? null))],
    ['skip', network.phone.skip(label(runId))],
    ['undo', undoes === null ? bench.trial.undo : `${bench.trial.undo}: ${bench.trial.undoes[undoes.what](undoes.trialId)}`],
    ['cover', isCovered ? bench.cover.reveal : bench.cover.cover],
  ];
}

const REASONS: readonly StrikeReason[] = ['bumped', 'slipped', 'handInWind'];

/** Why the trial is struck: one tap for what happens most. */
function Reasons({ page }: { page: PhoneState }) {
  const { editing, operator, words } = page;
  const say = words.value.network.phone;
  const trialId = editing.value?.trialId ?? 0;
  const strike = (reason: string): void => {
    editing.value = null;
    operator.act({ kind: 'strike', trialId, reason });
  };
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        const field = event.currentTarget.elements.namedItem('reason');
        strike(field instanceof HTMLInputElement ? field.value.trim() : '');
      }}
    >
      <p>{say.whyStruck(trialId)}</p>
      <div class="touch">
        {REASONS.map((reason) => (
          <button
            key={reason}
            type="button"
            class="strong"
            onClick={() => strike(say.reason[reason])}
          >
            {say.reason[reason]}
          </button>
        ))}
        <button type="button" onClick={() => (editing.value = null)}>
          {say.cancel}
        </button>
      </div>
      <label>
        {say.otherReason} <input type="text" name="reason" maxLength={200} />
      </label>
      <button type="submit" class="strong">
        {words.value.bench.trial.strike}
      </button>
    </form>
  );
}
