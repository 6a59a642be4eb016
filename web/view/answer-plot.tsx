/** The answer plot: one mark a trial, by level, number or wind, on the power axis of the curve. */
import type { Axis } from '../draw/axis.ts';
import { madeByHand } from '#core/experiment/trial-book.ts';
import type { Optimum } from '#core/experiment/comparison/comparison-schema.ts';
import { abreast, type Dash } from '../draw/abreast.ts';
import { clearOf, type Box } from '../draw/clear-of.ts';
import { dashShape } from '../draw/dash-shape.ts';
import { acrossByLevels, lettersIn } from '../draw/level-marks.ts';
import {
  acrossByNumber,
  DASH,
  type Across,
  type CurveMark,
  type Ground,
  type Label,
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
import { powerY, type FieldBox, type PlotBox } from './field-box.ts';
import type { Audience } from './audience.ts';
import { currentTrialId } from './watch-state.ts';
import { acrossShare, acrossWind, shareAxisOf, WindSigns } from './wind-plot.tsx';

interface PlotParts {
  readonly page: Audience;
  readonly box: FieldBox;
}

/** Kept free at the right for the names of the grid lines, rem. */
const LABEL_ROOM = 2;

/** Where the trials stand across the plot, and the slot of the trial to come. */
export function acrossOf(page: Audience, box: FieldBox): Across {
  const { bench } = page;
  const { plotLeft, plotRight, rem, nameRows = 1 } = box;
  const ground = { left: plotLeft, right: plotRight - LABEL_ROOM * rem, rem, nameRows };
  switch (page.acrossBy.value) {
    case 'number':
      return acrossByNumber(bench.trials.value, currentTrialId(page), ground);
    case 'wind':
      return acrossWind(page, ground);
    case 'share':
      return acrossShare(page, box, ground);
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
      notInPlan: page.words.value.bench.plot.notInPlan,
      others: page.words.value.bench.plot.others,
    },
    ground,
  );
}

/** Where the most lies, where both ends are known. */
export function limitsOf(optimum: Optimum | null): { low: number; high: number } | null {
  if (optimum?.kind !== 'interior' || optimum.low === null || optimum.high === null) return null;
  return { low: optimum.low, high: optimum.high };
}

export function AnswerPlot({ page, box }: PlotParts) {
  const isCovered = page.bench.experiment.value.isCovered;
  const across = acrossOf(page, box);
  const way = page.acrossBy.value;
  return (
    <>
      <MarksPlot
        across={isCovered ? { ...across, ...NOTHING_SHOWN } : across}
        axis={way === 'share' ? shareAxisOf(page) : page.powerAxis.value}
        box={box}
        atLeast={page.words.value.plan.atLeast}
        hasLines={way !== 'levels'}
        nowId={page.bench.loggedTrial.value?.id ?? null}
      />
      {!isCovered && <WindSigns page={page} box={box} />}
    </>
  );
}

const NOTHING_SHOWN = { marks: [], means: [], curve: [], most: null } as const;

/** What stands where on a plot, on its axis. */
export interface PlottedMarks {
  readonly across: Across;
  /** Of power, or of what is left of it. */
  readonly axis: Axis;
  readonly box: PlotBox;
  /** At the line of a single setting. */
  readonly atLeast: string;
  /** Each dash has a line of its own; by levels that of the mean stands beside the dashes instead. */
  readonly hasLines: boolean;
  /** The trial that is just being logged. */
  readonly nowId: number | null;
}

/** The marks of trials, their means, and the curve through them. */
export function MarksPlot(plot: PlottedMarks) {
  const { marks, means, labels, curve, most } = plot.across;
  const { box } = plot;
  const dashes = dashesOf(plot);
  const boxes = boxesOf(dashes, plot);
  return (
    <g class="answer-plot">
      <Fit curve={curve} plot={plot} />
      {most !== null && <Bracket {...most} box={box} />}
      {marks.map((mark, i) => (
        <TrialMark key={mark.trial.id} mark={mark} dash={dashes[i] as Dash} plot={plot} />
      ))}
      {means.map((mean, i) => (
        <Mean key={i} mean={mean} plot={plot} dashes={boxes} />
      ))}
      {labels.map((label) => (
        <Name key={`${label.text} ${label.x}`} label={label} box={box} />
      ))}
    </g>
  );
}

/** From one row of names to the next, rem. */
const NAME_ROW = 1.25;

function Name({ label: { x, text, isNow, row = 0 }, box }: { label: Label; box: PlotBox }) {
  const y = box.height + (NAME_ROW * row - 0.45) * box.rem;
  return (
    <g class={isNow ? 'name now' : 'name'}>
      {isNow && (
        <rect
          x={x - (0.3 + 0.29 * lettersIn(text)) * box.rem}
          y={y - 1.05 * box.rem}
          width={(0.6 + 0.58 * lettersIn(text)) * box.rem}
          height={1.4 * box.rem}
        />
      )}
      <text x={x} y={y} text-anchor="middle">
        {text}
      </text>
    </g>
  );
}

/** Each mark's dash: none hides another, however close their powers lie. */
function dashesOf({ across, axis, box }: PlottedMarks): readonly Dash[] {
  return abreast(
    across.marks.map(({ x, power_W }) => ({ x, y: powerY(box, axis, power_W) })),
    { width: across.dash * box.rem, height: DASH.height * box.rem, gap: rimOf({ across, box }) },
  );
}

/** What each mark takes, with some paper around it. */
function boxesOf(dashes: readonly Dash[], { across, axis, box }: PlottedMarks): readonly Box[] {
  const half = (DASH.height / 2 + DASH.rim) * box.rem;
  return across.marks.map(({ power_W }, i) => {
    const { left, width } = dashes[i] as Dash;
    const y = powerY(box, axis, power_W);
    return { left, right: left + width, top: y - half, bottom: y + half };
  });
}

/** Paper around a dash, which is what parts it from its neighbours; narrower where dashes are. */
function rimOf({ across, box }: Pick<PlottedMarks, 'across' | 'box'>): number {
  return Math.min(DASH.rim, across.dash / 12) * box.rem;
}

/** The fitted curve on its band, between the levels tried. */
function Fit({ curve, plot }: { curve: readonly CurveMark[]; plot: PlottedMarks }) {
  if (curve.length === 0) return null;
  const { axis, box } = plot;
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
function Bracket({ left, right, box }: { left: number; right: number; box: PlotBox }) {
  const top = box.bottom - 0.35 * box.rem;
  return <path class="bracket" d={`M${left} ${top}V${box.bottom}H${right}V${top}`} />;
}

/** From a ring to the line of what its trials have in common, rem. */
const COMMON_APART = 0.5;
/** Room of the words at a line of a single setting, and their height above and below, rem. */
const LEAST_ROOM = 5;
const LEAST_TEXT = { above: 0.75, below: 0.2 } as const;

interface MeanProps {
  readonly mean: MeanMark;
  readonly plot: PlottedMarks;
  readonly dashes: readonly Box[];
}

/** A ring on its 95 % line; for a single setting the line alone, named for what it is. */
function Mean({ mean, plot, dashes }: MeanProps) {
  const { axis, box } = plot;
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
      {mean.halfCommon_W > 0 && (
        <line
          class="interval common"
          x1={mean.x + COMMON_APART * box.rem}
          x2={mean.x + COMMON_APART * box.rem}
          y1={Math.min(y(mean.power_W - mean.halfCommon_W), box.bottom)}
          y2={Math.max(y(mean.power_W + mean.halfCommon_W), box.top)}
        />
      )}
      {!mean.isLeast && (
        <circle class="ring" cx={mean.x} cy={y(mean.power_W)} r={0.3 * box.rem} />
      )}
      {mean.isLeast && mean.isNamed && (
        <AtLeast x={mean.x} wanted={Math.min(top, y(mean.power_W) - 0.3 * box.rem)} {...{ plot, dashes }} />
      )}
    </g>
  );
}

interface AtLeastProps extends Omit<MeanProps, 'mean'> {
  readonly x: number;
  /** What it stands above. */
  readonly wanted: number;
}

/** What the line of a single setting is; above it, and above the dashes that lie there. */
function AtLeast({ x, wanted, plot: { box, atLeast }, dashes }: AtLeastProps) {
  const { rem } = box;
  const isAtEnd = x + LEAST_ROOM * rem > box.plotRight;
  const [left, right] = [isAtEnd ? x - LEAST_ROOM * rem : x, isAtEnd ? x : x + LEAST_ROOM * rem];
  const bottom = wanted - (0.3 - LEAST_TEXT.below) * rem;
  const height = (LEAST_TEXT.above + LEAST_TEXT.below) * rem;
  const top = clearOf({ left, right, top: bottom - height, bottom }, dashes);
  return (
    <text
      class="soft"
      x={x + 0.3 * rem}
      y={top + LEAST_TEXT.above * rem}
      text-anchor={isAtEnd ? 'end' : 'start'}
    >
      {atLeast}
    </text>
  );
}

function chevron(x: number, y: number, size: number): string {
  return `M${x - size} ${y + size}L${x} ${y}L${x + size} ${y + size}`;
}

function TrialMark({ mark, dash, plot }: { mark: Mark; dash: Dash; plot: PlottedMarks }) {
  const { axis, box, nowId } = plot;
  const { left, width } = dash;
  const y = powerY(box, axis, mark.power_W);
  const height = DASH.height * box.rem;
  const low = powerY(box, axis, mark.power_W - mark.halfPower_W);
  const high = powerY(box, axis, mark.power_W + mark.halfPower_W);
  const isGood = mark.form === 'good';
  // Outlined, parts of a dash would be too thin to be told from filled ones.
  const shape = dashShape(isGood ? mark.beside : 0, { left, top: y - height / 2, width, height });
  const hasLine = isGood && low - high > height && plot.hasLines;
  return (
    <g class={`mark ${mark.form}${mark.trial.id === nowId ? ' now' : ''}`} data-trial={mark.trial.id}>
      {hasLine && <line class="interval" x1={mark.x} x2={mark.x} y1={low} y2={high} />}
      {isGood && mark.halfAcross > width / 2 && (
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
        <>
          {isGood && <path class="rim" d={shape} stroke-width={2 * rimOf(plot)} />}
          <path class={isGood ? 'dash' : 'slot'} d={shape} />
        </>
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
