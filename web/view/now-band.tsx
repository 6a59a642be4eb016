/** The band that the room reads: which trial, what to do, what still moves, and the power. */
import { WEIGHT } from '../draw/numeral.ts';
import { isCutOff, type Stage } from '../model/stage.ts';
import { inOneLine } from '../model/words.ts';
import { labelOf, runById } from '../model/experiment.ts';
import { runAtWork } from '#core/experiment/answer/seats.ts';
import { currentWords } from './current-words.ts';
import { Figure } from './figure.tsx';
import { LevelNow } from './level-now.tsx';
import type { PageState } from './page-state.ts';
import { PowerNow } from './power-now.tsx';
import { openQuestion } from './question-line.tsx';
import { StepButtons } from './step-buttons.tsx';
import { currentTrialId } from './watch-state.ts';

export function NowBand({ page }: { page: PageState }) {
  const stage = page.bench.stage.value;
  const isHatched = isCutOff(stage) || stage === 'disturbed';
  return (
    <section class={isHatched ? 'band hatched' : 'band'} data-stage={stage} aria-label={page.words.value.page.sectionNow}>
      <Setting page={page} stage={stage} />
      <NowWords page={page} stage={stage} />
      <PowerNow page={page} stage={stage} />
    </section>
  );
}

/** With a plan the level of the run at work, else the number of the trial. */
function Setting({ page, stage }: { page: PageState; stage: Stage }) {
  const experiment = page.bench.experiment.value;
  const run = runAtWork(experiment) ?? runById(experiment, experiment.nextRunId);
  if (experiment.plan === null || run === null) return <TrialNumber page={page} stage={stage} />;
  return <LevelNow page={page} plan={experiment.plan} run={run} stage={stage} />;
}

/** The number of the trial at work, and whether it is logged: a dash, else an outlined slot. */
function TrialNumber({ page, stage }: { page: PageState; stage: Stage }) {
  const text = String(currentTrialId(page));
  const isFilled = stage === 'logged' || stage === 'still';
  const { list } = page.words.value.top;
  return (
    <div class="trial-number">
      <Figure text={text} weights={[...text].map(() => WEIGHT.set)} />
      <p>
        <svg class="sign" viewBox="0 0 36 12" aria-hidden="true">
          <rect class={isFilled ? 'dash' : 'slot'} x="1" y="1" width="34" height="10" />
        </svg>
        <span>
          {stage === 'logged' ? list.trialLogged : list.nextTrial}
          <span class="sr"> {text}</span>
        </span>
      </p>
    </div>
  );
}

function NowWords({ page, stage }: { page: PageState; stage: Stage }) {
  const { lines, moving, detail } = currentWords(page);
  const then = stage === 'logged' ? nextSetting(page) : '';
  // This is the laptop: the question stands below the band, with its answers.
  const isAsked = openQuestion(page)?.asked === moving;
  return (
    <div class="words">
      <p class="instruction">{inOneLine(lines)}</p>
      <p class="moving">
        {isAsked ? '' : moving} {then}
      </p>
      <p class="detail">{isAsked ? '' : detail}</p>
      <StepButtons page={page} stage={stage} />
    </div>
  );
}

/** "Then set 10°.": what comes once the blades have stopped. */
function nextSetting({ bench, words }: PageState): string {
  const { plan, step, runs, nextRunId } = bench.experiment.value;
  const next = runs.find(({ id }) => id === nextRunId);
  if (plan === null || step !== 'logged' || next === undefined) return '';
  return next.repeat > 1 ? '' : words.value.bench.run.thenSet(labelOf(plan, next));
}
