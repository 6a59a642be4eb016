/** What the rig is set to now, in large figures, and how far its repeats have come. */
import { WEIGHT } from '../draw/numeral.ts';
import { settingsOf } from '../model/experiment.ts';
import { placeAcross } from '#core/experiment/answer/seats.ts';
import type { Plan } from '#core/experiment/plan/plan.ts';
import type { RunView } from '#core/experiment/view.ts';
import type { Stage } from '../model/stage.ts';
import { Repeats } from './at-work.tsx';
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
      <p>
        <Repeats page={page} run={run} isLogged={stage === 'logged'} />
      </p>
    </div>
  );
}

/** A name, a number and a unit, or some of them. */
const PARTS = /^(?:(.*?),\s)?([−-]?\d+(?:[.,]\d+)?)\s?(°?)(.*)$/;

/** A longer name takes more lines than the band has room for in its largest type. */
const LONG_NAME = 12;

/** Numbers in the page's own figures; a level that is only a name in type. */
export function LargeLevel({ label, weight = WEIGHT.set }: { label: string; weight?: number }) {
  const [, name, digits, degree = '', unit = ''] = PARTS.exec(label) ?? [];
  if (digits === undefined) {
    return <span class={label.length > LONG_NAME ? 'named long' : 'named'}>{label}</span>;
  }
  const text = `${digits.replace(',', '.').replace('-', '−')}${degree}`;
  return (
    <>
      <Figure text={text} weights={[...text].map(() => weight)} />
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
