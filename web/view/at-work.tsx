/** The line over the instruction: what is set, and how far its repeats have come. */
import type { RunView } from '#core/experiment/view.ts';
import { labelOf, placeInPlan, repeatsOf, runById, settingsOf } from '../model/experiment.ts';
import type { Stage } from '../model/stage.ts';
import { currentTrialId, type WatchState } from './watch-state.ts';

interface AtWorkProps {
  readonly page: WatchState;
  readonly stage: Stage;
}

export function AtWork({ page, stage }: AtWorkProps) {
  const experiment = page.bench.experiment.value;
  const run = runById(experiment, experiment.runId);
  const isLogged = stage === 'logged' || stage === 'still';
  if (experiment.plan === null || run === null) {
    return (
      <p class="at-work">
        <span>{page.words.value.plan.trial(currentTrialId(page))}</span>
        <Sign form={isLogged ? 'dash' : 'slot'} />
      </p>
    );
  }
  const { setting } = page.words.value.plan;
  const settings = settingsOf(experiment.plan, run);
  const [only] = settings;
  const isOne = only !== undefined && settings.length === 1;
  const name = isOne ? setting(only) : labelOf(experiment.plan, run);
  return (
    <p class="at-work">
      <span>{name}</span>
      <Repeats page={page} run={run} isLogged={isLogged} />
    </p>
  );
}

/** More are told by their number alone. */
const MOST_SIGNS = 5;

interface RepeatsProps {
  readonly page: WatchState;
  readonly run: RunView;
  readonly isLogged: boolean;
}

/** A dash for each run that sets the same: done, at work, to come. */
export function Repeats({ page, run, isLogged }: RepeatsProps) {
  const experiment = page.bench.experiment.value;
  const { runs, at } = repeatsOf(experiment, run);
  const isDone = ({ id, status }: RunView): boolean =>
    status === 'done' || (id === run.id && (isLogged || experiment.step === 'logged'));
  return (
    <>
      {runs.length <= MOST_SIGNS &&
        runs.map((one) => {
          const open = one.id === run.id ? 'slot' : 'to-come';
          return <Sign key={one.id} form={isDone(one) ? 'dash' : open} />;
        })}
      {at > 0 && <span>{page.words.value.plan.countOf(at, runs.length)}</span>}
    </>
  );
}

function Sign({ form }: { form: 'dash' | 'slot' | 'to-come' }) {
  return (
    <svg class="sign" viewBox="0 0 36 12" aria-hidden="true">
      {form === 'to-come' ? (
        <path class="to-come" d="M1 6H35" />
      ) : (
        <rect class={form} x="1" y="1" width="34" height="10" />
      )}
    </svg>
  );
}

/** Below the plot: what comes next once a trial is logged, else how far the plan has come. */
export function Progress({ page, stage }: AtWorkProps) {
  const experiment = page.bench.experiment.value;
  const { plan, nextRunId } = experiment;
  if (plan === null) return null;
  const { nextIs, countOf } = page.words.value.plan;
  const next = runById(experiment, nextRunId);
  const isOver = stage === 'logged' || experiment.step === 'logged';
  if (next !== null && isOver) {
    return <p class="progress next">{nextIs(labelOf(plan, next))}</p>;
  }
  const { at, done, all } = placeInPlan(experiment);
  return <p class="progress">{countOf(at === 0 ? done : at, all)}</p>;
}
