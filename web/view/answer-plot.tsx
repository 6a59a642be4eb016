/** The answer plot: one mark a trial, by level, number or wind, on the power axis of the curve. */
import { madeByHand } from '#core/experiment/trial-book.ts';
import type { Optimum } from '#core/experiment/comparison/comparison-schema.ts';
import { dashShape } from '../draw/dash-shape.ts';
import { acrossByLevels } from '../draw/level-marks.ts';
import {
  acrossByNumber,
  acrossByWind,
  DASH,
  type Across,
  type CurveMark,
  type Ground,
  type Mark,
  type MeanMark,
} from '../draw/trial-marks.ts';
import {
  besideNames,
  placeAcross,
  runAtWork,
  seatedTrials,
  seatOf,
} from '#core/experiment/answer/seats.ts';
import { seatMeans, triedSettings } from '#core/experiment/answer/settings.ts';
import { powerY, type FieldBox } from './field-box.ts';
import type { Audience } from './audience.ts';
import { currentTrialId } from './watch-state.ts';

interface PlotParts {
  readonly page: Audience;
  readonly box: FieldBox;
}

/** Kept free at the right for the names of the grid lines, rem. */
const LABEL_ROOM = 2;

/** Where the trials stand across the plot, and the slot of the trial to come. */
export function acrossOf(page: Audience, box: FieldBox): Across {
  const { bench } = page;
  const ground = { left: box.plotLeft, right: box.plotRight - LABEL_ROOM * box.rem, rem: box.rem };
  switch (page.acrossBy.value) {
    case 'number':
      return acrossByNumber(bench.trials.value, currentTrialId(page), ground);
    case 'wind': {
      const channels = bench.judgement.value?.channels;
      const wind = channels?.find(({ channel }) => channel === 'windSpeed_mps');
      return acrossByWind(bench.trials.value, wind?.level ?? null, ground);
    }
    case 'levels':
      return levelsAcross(page, ground);
  }
}

function levelsAcross(page: Audience, ground: Ground): Across {
  const experiment = page.bench.experiment.value;
  const { plan } = experiment;
  const run = runAtWork(experiment);
  if (plan === null) return acrossByNumber([], 1, ground);
  const place = placeAcross(plan, run);
  const seated = seatedTrials(experiment, page.bench.trials.value, place);
  return acrossByLevels(
    {
      levels: plan.factors[place]?.levels ?? [],
      besideCount: besideNames(plan, place).length,
      seated,
      means: seatMeans(triedSettings(seated)),
      curve: page.answer.value?.curve ?? null,
      most: limitsOf(page.answer.value?.optimum ?? null),
      current: run === null ? null : seatOf(plan, place, run),
      isFinished: experiment.step === 'finished',
      noRun: page.words.value.bench.plot.noRun,
    },
    ground,
  );
}

function limitsOf(optimum: Optimum | null): { low: number; high: number } | null {
  if (optimum?.kind !== 'interior' || optimum.low === null || optimum.high === null) return null;
  return { low: optimum.low, high: optimum.high };
}

export function AnswerPlot({ page, box }: PlotParts) {
  const { marks, means, labels, dash, curve, most } = acrossOf(page, box);
  const loggedId = page.bench.loggedTrial.value?.id;
  const isCovered = page.bench.experiment.value.isCovered;
  const y = box.height - 0.45 * box.rem;
  return (
    <g class="answer-plot">
      {!isCovered && <Fit curve={curve} page={page} box={box} />}
      {!isCovered && most !== null && <Bracket {...most} box={box} />}
      {!isCovered &&
        marks.map((mark) => (
          <TrialMark
            key={mark.trial.id}
            mark={mark}
            page={page}
            box={box}
            dash={dash}
            isNow={mark.trial.id === loggedId}
          />
        ))}
      {!isCovered && means.map((mean, i) => <Mean key={i} mean={mean} page={page} box={box} />)}
      {labels.map(({ x, text, isNow }) => (
        <g key={`${text} ${x}`} class={isNow ? 'name now' : 'name'}>
          {isNow && (
            <rect
              x={x - (0.3 + 0.29 * text.length) * box.rem}
              y={y - 1.05 * box.rem}
              width={(0.6 + 0.58 * text.length) * box.rem}
              height={1.4 * box.rem}
            />
          )}
          <text x={x} y={y} text-anchor="middle">
            {text}
          </text>
        </g>
      ))}
    </g>
  );
}

/** The fitted curve on its band, between the levels tried. */
function Fit({ curve, page, box }: PlotParts & { curve: readonly CurveMark[] }) {
  if (curve.length === 0) return null;
  const axis = page.powerAxis.value;
  const line = (points: readonly CurveMark[], height: (point: CurveMark) => number): string =>
    points
      .map((point) => {
        const y = Math.min(Math.max(powerY(box, axis, height(point)), box.top), box.bottom);
        return `${point.x.toFixed(1)} ${y.toFixed(1)}`;
      })
      .join('L');
  const band = `M${line(curve, ({ high }) => high)}L${line(curve.toReversed(), ({ low }) => low)}Z`;
  return (
    <g class="fit">
      <path class="band-of-fit" d={band} />
      <path class="line-of-fit" d={`M${line(curve, ({ mean }) => mean)}`} />
    </g>
  );
}

/** On the axis, heavy: from where to where the most lies. */
function Bracket({ left, right, box }: { left: number; right: number; box: FieldBox }) {
  const top = box.bottom - 0.35 * box.rem;
  return <path class="bracket" d={`M${left} ${top}V${box.bottom}H${right}V${top}`} />;
}

/** Room of the words at a line of a single setting, rem. */
const LEAST_ROOM = 5;

/** A ring on its 95 % line; for a single setting the line alone, named for what it is. */
function Mean({ mean, page, box }: PlotParts & { mean: MeanMark }) {
  const axis = page.powerAxis.value;
  const y = (power_W: number): number => powerY(box, axis, power_W);
  const low = Math.min(y(mean.power_W - mean.halfPower_W), box.bottom);
  const high = y(mean.power_W + mean.halfPower_W);
  // A line that is longer than the plot is high goes on beyond it, and says so.
  const isCut = high < box.top;
  const top = isCut ? box.top - 0.5 * box.rem : high;
  return (
    <g class={mean.isLeast ? 'mean least' : 'mean'}>
      <line class="interval" x1={mean.x} x2={mean.x} y1={low} y2={top} />
      {isCut && <path class="beyond" d={chevron(mean.x, top, 0.25 * box.rem)} />}
      {!mean.isLeast && (
        <circle class="ring" cx={mean.x} cy={y(mean.power_W)} r={0.3 * box.rem} />
      )}
      {mean.isLeast && mean.isNamed && (
        <text
          class="soft"
          x={mean.x + 0.3 * box.rem}
          y={Math.min(top, y(mean.power_W) - 0.3 * box.rem) - 0.3 * box.rem}
          text-anchor={mean.x + LEAST_ROOM * box.rem > box.plotRight ? 'end' : 'start'}
        >
          {page.words.value.plan.atLeast}
        </text>
      )}
    </g>
  );
}

function chevron(x: number, y: number, size: number): string {
  return `M${x - size} ${y + size}L${x} ${y}L${x + size} ${y + size}`;
}

interface TrialMarkProps extends PlotParts {
  readonly mark: Mark;
  /** Width of a dash, rem. */
  readonly dash: number;
  readonly isNow: boolean;
}

function TrialMark({ mark, page, box, dash, isNow }: TrialMarkProps) {
  const axis = page.powerAxis.value;
  const y = powerY(box, axis, mark.power_W);
  const [width, height] = [dash * box.rem, DASH.height * box.rem];
  const left = mark.x - width / 2;
  const low = powerY(box, axis, mark.power_W - mark.halfPower_W);
  const high = powerY(box, axis, mark.power_W + mark.halfPower_W);
  // By levels the line of the mean stands beside the dashes instead.
  const hasLine = mark.form === 'good' && low - high > height && page.acrossBy.value !== 'levels';
  return (
    <g class={`mark ${mark.form}${isNow ? ' now' : ''}`} data-trial={mark.trial.id}>
      {hasLine && <line class="interval" x1={mark.x} x2={mark.x} y1={low} y2={high} />}
      {mark.form === 'good' && mark.halfAcross > width / 2 && (
        <line
          class="interval"
          x1={mark.x - mark.halfAcross}
          x2={mark.x + mark.halfAcross}
          y1={y}
          y2={y}
        />
      )}
      {mark.form === 'cut' ? (
        <CutDash left={left} y={y} width={width} height={height} />
      ) : (
        <path
          class={mark.form === 'good' ? 'dash' : 'slot'}
          // Outlined, parts of a dash would be too thin to be told from filled ones.
          d={dashShape(mark.form === 'good' ? mark.beside : 0, {
            left,
            top: y - height / 2,
            width,
            height,
          })}
        />
      )}
      {madeByHand(mark.trial) && (
        <path class="by-hand" d={`M${left} ${y + height / 2}v${STEM * box.rem}`} />
      )}
      {mark.form === 'struck' && (
        <line class="slash" x1={left - 2} x2={left + width + 2} y1={y + height} y2={y - height} />
      )}
    </g>
  );
}

/** Below the dash of what no board has read: keyed in, or from a table; rem. */
const STEM = 0.4;

/** A dash open at its right end: the stretch was cut off. */
function CutDash({
  left,
  y,
  width,
  height,
}: {
  left: number;
  y: number;
  width: number;
  height: number;
}) {
  const [top, bottom, right] = [y - height / 2, y + height / 2, left + width * 0.7];
  return <path class="slot" d={`M${right} ${top}H${left}V${bottom}H${right}`} />;
}
