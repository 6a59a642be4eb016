/** What the rig is set to now, in large figures, and how far its repeats have come. */
import { WEIGHT } from '../draw/numeral.ts';
import { repeatsOf, settingsOf } from '../model/experiment.ts';
import { placeAcross } from '../model/level-results.ts';
import type { Plan } from '#core/experiment/plan/plan.ts';
import type { RunView } from '#core/experiment/view.ts';
import type { Stage } from '../model/stage.ts';
import { Figure } from './figure.tsx';
import type { PageState } from './page-state.ts';

interface LevelNowProps {
  readonly page: PageState;
  readonly plan: Plan;
  readonly run: RunView;
  readonly stage: Stage;
}

export function LevelNow({ page, plan, run, stage }: LevelNowProps) {
  const settings = settingsOf(plan, run);
  const place = placeAcross(plan, run);
  const label = settings[place]?.level.label ?? '–';
  const others = settings.filter((_, i) => i !== place).map(({ level }) => level.label);
  return (
    <div class="trial-number level-now">
      <p class="level">
        <LargeLevel label={label} />
        {others.length > 0 && <span class="others">{others.join(', ')}</span>}
      </p>
      <Replicates page={page} run={run} stage={stage} />
    </div>
  );
}

/** A name, a number and a unit, or some of them. */
const PARTS = /^(?:(.*?),\s)?([−-]?\d+(?:[.,]\d+)?)\s?(°?)(.*)$/;

/** Numbers in the page's own figures; a level that is only a name in type. */
function LargeLevel({ label }: { label: string }) {
  const [, name, digits, degree = '', unit = ''] = PARTS.exec(label) ?? [];
  if (digits === undefined) return <span class="named">{label}</span>;
  const text = `${digits.replace(',', '.').replace('-', '−')}${degree}`;
  return (
    <>
      <Figure text={text} weights={[...text].map(() => WEIGHT.set)} />
      <span class="sr">{label}</span>
      {unit !== '' && (
        <span class="level-unit" aria-hidden="true">
          {unit}
        </span>
      )}
      {name !== undefined && (
        <span class="others" aria-hidden="true">
          {name}
        </span>
      )}
    </>
  );
}

const MOST_SIGNS = 5;

/** A dash for each run that sets the same: done, at work, to come. */
function Replicates({ page, run, stage }: Pick<LevelNowProps, 'page' | 'run' | 'stage'>) {
  const experiment = page.bench.experiment.value;
  const { runs, at } = repeatsOf(experiment, run);
  const isLogged = experiment.step === 'logged' || stage === 'logged';
  return (
    <p>
      {runs.length <= MOST_SIGNS &&
        runs.map(({ id, status }) => {
          const isDone = status === 'done' || (id === run.id && isLogged);
          return (
            <svg key={id} class="sign" viewBox="0 0 36 12" aria-hidden="true">
              {!isDone && id !== run.id ? (
                <path class="to-come" d="M1 6H35" />
              ) : (
                <rect class={isDone ? 'dash' : 'slot'} x="1" y="1" width="34" height="10" />
              )}
            </svg>
          );
        })}
      {at > 0 && <span>{page.words.value.plan.countOf(at, runs.length)}</span>}
    </p>
  );
}
