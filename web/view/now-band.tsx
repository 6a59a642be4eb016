/** The band that the room reads: which trial, what to do, what still moves, and the power. */
import { UNIT_SPACE, writeMeasured } from '#core/metrology/format.ts';
import { WEIGHT } from '../draw/numeral.ts';
import { recentLevels } from '../draw/window-buffer.ts';
import { countingTrials } from '../model/sentence.ts';
import { livePlace, unitOf } from '../model/quantities.ts';
import { powerReading } from '../model/reading.ts';
import { hasReadings, isCutOff, type Stage } from '../model/stage.ts';
import { inOneLine } from '../model/words.ts';
import { labelOf, runById } from '../model/experiment.ts';
import { runAtWork } from '../model/level-results.ts';
import { currentWords } from './current-words.ts';
import { Figure, weightsOf } from './figure.tsx';
import { LevelNow } from './level-now.tsx';
import type { PageState } from './page-state.ts';
import { StepButtons } from './step-buttons.tsx';
import { currentTrialId } from './watch-state.ts';

export function NowBand({ page }: { page: PageState }) {
  const stage = page.bench.stage.value;
  const isHatched = isCutOff(stage) || stage === 'disturbed';
  return (
    <section class={isHatched ? 'band hatched' : 'band'} data-stage={stage} aria-label="Now">
      <Setting page={page} stage={stage} />
      <NowWords page={page} stage={stage} />
      <Power page={page} stage={stage} />
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
  return (
    <div class="trial-number">
      <Figure text={text} weights={[...text].map(() => WEIGHT.set)} />
      <p>
        <svg class="sign" viewBox="0 0 36 12" aria-hidden="true">
          <rect class={isFilled ? 'dash' : 'slot'} x="1" y="1" width="34" height="10" />
        </svg>
        <span>
          {stage === 'logged' ? 'trial logged' : 'next trial'}
          <span class="sr"> {text}</span>
        </span>
      </p>
    </div>
  );
}

function NowWords({ page, stage }: { page: PageState; stage: Stage }) {
  const { lines, moving, detail } = currentWords(page);
  const then = stage === 'logged' ? nextSetting(page) : '';
  return (
    <div class="words">
      <p class="instruction">{inOneLine(lines)}</p>
      <p class="moving">
        {moving} {then}
      </p>
      {/* This is the laptop: the question stands below the band with its answers. */}
      <p class="detail">{detail === page.words.value.question.onLaptop ? '' : detail}</p>
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

function Power({ page, stage }: { page: PageState; stage: Stage }) {
  const { bench } = page;
  const prefix = page.prefixes.value.power_W;
  const newest = bench.trials.value.at(-1);
  const reading = powerReading({
    stage,
    judgement: bench.judgement.value,
    loggedTrial: bench.loggedTrial.value,
    prefix,
    levels: recentLevels(bench.buffer, 'power_W'),
    place: livePlace('power_W', { axisHigh: page.powerAxis.value.high, prefix, newest }),
  });
  const unit = unitOf('power_W', prefix);
  return (
    <div class={hasReadings(stage) ? 'power' : 'power none'}>
      <Figure
        text={reading.text}
        weights={hasReadings(stage) ? weightsOf(reading.still) : NO_POWER_WEIGHTS}
      />
      <span class="sr">Power {spokenReading(reading.text, unit)}</span>
      <div class="beside">
        <p class="uncertainty">
          {reading.uncertainty !== null && (
            <>
              ±{UNIT_SPACE}
              {reading.uncertainty}
              {stage !== 'logged' && <span class="so-far"> so far</span>}
            </>
          )}
        </p>
        {hasReadings(stage) ? (
          <p class={stage === 'logged' || stage === 'still' ? 'unit heavy' : 'unit'}>{unit}</p>
        ) : (
          <LastPower page={page} />
        )}
      </div>
    </div>
  );
}

/** The three dashes that stand for a reading that does not come. */
const NO_POWER_WEIGHTS = [9, 9, 9];

function spokenReading(text: string, unit: string): string {
  return text.startsWith('–') ? 'not known' : `${text} ${unit}`;
}

/** What was last logged, while no reading comes. */
function LastPower({ page }: { page: PageState }) {
  const newest = countingTrials(page.bench.trials.value).at(-1);
  if (!newest?.power_W) return null;
  const { value, unit } = writeMeasured(newest.power_W, {
    unit: 'W',
    prefix: page.prefixes.value.power_W,
  });
  return (
    <p class="last-power">
      last logged
      <br />
      {value}
      {UNIT_SPACE}
      {unit}
    </p>
  );
}
