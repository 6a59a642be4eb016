/** What would be done, run by run, how long it takes, and how much of it fits before the bell. */
import { carryOver } from '#core/experiment/plan/change.ts';
import { durationOf, roundsThatFit } from '#core/experiment/plan/duration.ts';
import type { Plan, Run } from '#core/experiment/plan/plan.ts';
import type { ExperimentView } from '#core/experiment/view.ts';
import { railOf } from '../model/rail.ts';
import type { PageState } from '../view/page-state.ts';
import { useTimeOfDay_s } from '../view/use-time-of-day.ts';
import { seconds } from '../words/numbers.ts';
import type { ReadForm } from './read-form.ts';

/** Rounds that are written out; more of them look alike. */
const MOST_ROUNDS_SHOWN = 6;

export function PlanPreview({ page, read }: { page: PageState; read: ReadForm }) {
  const experiment = page.bench.experiment.value;
  const { bench, plan: say } = page.words.value;
  if (read.plan === null) return null;
  const left = runsLeft(experiment, read.plan);
  const rounds = railOf({ ...experiment, plan: read.plan, step: 'no-plan', runId: null, runs: left });
  return (
    <section class="plan-preview" aria-label={bench.form.runs(left.length)}>
      <Duration page={page} plan={read.plan} left={left} />
      <dl>
        {rounds.slice(0, MOST_ROUNDS_SHOWN).map(({ round, group, cells }, i) => (
          <div key={i}>
            <dt class="soft">
              {say.round(round)}
              {group !== null && ` · ${group}`}
            </dt>
            <dd>
              {cells.map(({ run, label }) => (
                <span key={run.id} class={run.isReference ? 'of-reference' : ''}>
                  {label}
                </span>
              ))}
            </dd>
          </div>
        ))}
      </dl>
      {rounds.length > MOST_ROUNDS_SHOWN && <p class="soft">…</p>}
    </section>
  );
}

/** The runs still to do: what was done under an earlier plan stays done. */
function runsLeft({ runs, plan: before }: ExperimentView, plan: Plan): ExperimentView['runs'] {
  const done = runs.filter(({ status }) => status === 'done');
  const open = { status: 'open', trialIds: [] } as const;
  return carryOver(done, plan, before ?? plan)
    .slice(done.length)
    .map((run) => ({ ...run, ...open }));
}

interface DurationProps {
  readonly page: PageState;
  readonly plan: Plan;
  readonly left: readonly Run[];
}

function Duration({ page, plan, left }: DurationProps) {
  const { form } = page.words.value.bench;
  const usual_s = page.bench.experiment.value.usualRun_s;
  const now_s = useTimeOfDay_s();
  const { all_s, perRun_s, basis } = durationOf(left.length, usual_s);
  const fit = roundsThatFit(plan, left, { usual_s, now_s });
  return (
    <p class="plan-time">
      <b>
        {form.runs(left.length)}, {form.takes(Math.ceil(all_s / 60))}
      </b>{' '}
      <span class="soft">({form.timed[basis](seconds(perRun_s))})</span>
      {fit !== null && plan.finishBy !== null && (
        <b class={fit.rounds < plan.rounds ? 'fits too-few' : 'fits'}>
          {form.fits(fit.rounds, plan.rounds, plan.finishBy)}
        </b>
      )}
    </p>
  );
}
