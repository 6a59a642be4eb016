/** Below the rail: what can be done with the chosen run, or which run a trial is to be given to. */
import { isPlayed } from '../model/bench.ts';
import { runById, labelOf } from '../model/experiment.ts';
import { finishMove } from './operator.ts';
import type { PageState } from './page-state.ts';

export function RunLine({ page }: { page: PageState }) {
  const { choosing } = page.operator;
  const experiment = page.bench.experiment.value;
  const run = runById(experiment, choosing.value?.runId ?? null);
  if (run === null || experiment.plan === null || choosing.value === null) return null;
  if (isPlayed(page.bench)) return null;
  const { trialId } = choosing.value;
  const name = page.words.value.bench.run.named(run.round, labelOf(experiment.plan, run));
  return (
    <div class="run-line">
      {trialId === null ? (
        <RunActions page={page} runId={run.id} isSkipped={run.status === 'skipped'} name={name} />
      ) : (
        <MoveActions page={page} runId={run.id} trialId={trialId} name={name} />
      )}
      <button type="button" class="underlined" onClick={() => (choosing.value = null)}>
        {page.words.value.bench.close}
        <Key>Esc</Key>
      </button>
    </div>
  );
}

interface RunActionsProps {
  readonly page: PageState;
  readonly runId: string;
  readonly isSkipped: boolean;
  readonly name: string;
}

function RunActions({ page: { operator, words }, runId, isSkipped, name }: RunActionsProps) {
  const { doNow, leaveOut, takeIn, onceMore } = words.value.bench.run;
  const say = (what: 'take-up' | 'skip' | 'unskip' | 'again'): void => {
    void operator.say({ say: what, runId });
    operator.choosing.value = null;
  };
  return (
    <>
      <p>
        <b>{name}</b>
      </p>
      {isSkipped ? (
        <button type="button" class="strong" onClick={() => say('unskip')}>
          {takeIn}
        </button>
      ) : (
        <>
          <button type="button" class="strong" onClick={() => say('take-up')}>
            {doNow}
          </button>
          <button type="button" class="strong" onClick={() => say('skip')}>
            {leaveOut}
          </button>
        </>
      )}
      <button type="button" class="strong" onClick={() => say('again')}>
        {onceMore}
      </button>
    </>
  );
}

interface MoveActionsProps {
  readonly page: PageState;
  readonly runId: string;
  readonly trialId: number;
  readonly name: string;
}

function MoveActions({ page: { operator, words }, runId, trialId, name }: MoveActionsProps) {
  const { moving, giveHere, giveNone } = words.value.bench.trial;
  return (
    <>
      <p role="status">
        {moving(trialId)} <b>{name}</b>
      </p>
      <button type="button" class="strong" onClick={() => finishMove(operator, runId)}>
        {giveHere}
        <Key>Enter</Key>
      </button>
      <button type="button" class="strong" onClick={() => finishMove(operator, null)}>
        {giveNone}
        <Key>0</Key>
      </button>
    </>
  );
}

/** The key that does the same as the button it stands on. */
export function Key({ children }: { children: string }) {
  return (
    <kbd aria-hidden="true">
      {'\u2002'}
      {children}
    </kbd>
  );
}
