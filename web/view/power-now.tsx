/** The power in large figures, with its uncertainty and unit, or what was last logged. */
import { UNIT_SPACE, writeMeasured } from '#core/metrology/format.ts';
import { recentLevels } from '../draw/window-buffer.ts';
import { livePlace, unitOf } from '../model/quantities.ts';
import { powerReading } from '../model/reading.ts';
import { countingTrials } from '../model/sentence.ts';
import { hasReadings, type Stage } from '../model/stage.ts';
import { Figure, weightsOf } from './figure.tsx';
import type { WatchState } from './watch-state.ts';

export function PowerNow({ page, stage }: { page: WatchState; stage: Stage }) {
  const { bench } = page;
  const words = page.words.value;
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
  const text = words.number(reading.text);
  return (
    <div class={hasReadings(stage) ? 'power' : 'power none'}>
      <Figure
        text={text}
        weights={hasReadings(stage) ? weightsOf(reading.still) : NO_POWER_WEIGHTS}
      />
      <span class="sr">
        {text.startsWith('–') ? words.page.powerUnknown : words.page.power(`${text} ${unit}`)}
      </span>
      <div class="beside">
        <p class="uncertainty">
          {reading.uncertainty !== null && (
            <>
              ±{UNIT_SPACE}
              {words.number(reading.uncertainty)}
              {stage !== 'logged' && <> <span class="so-far">{words.page.soFar}</span></>}
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

/** What was last logged, while no reading comes. */
function LastPower({ page }: { page: WatchState }) {
  const newest = countingTrials(page.bench.trials.value).at(-1);
  if (!newest?.power_W) return null;
  const words = page.words.value;
  const { value, unit } = writeMeasured(newest.power_W, {
    unit: 'W',
    prefix: page.prefixes.value.power_W,
  });
  return (
    <p class="last-power">
      {words.page.lastLogged}
      <br />
      {newest.rotorStill ? words.top.list.didNotTurn : `${words.number(value)}${UNIT_SPACE}${unit}`}
    </p>
  );
}
