/** What each picture of the report shows, where, and on which axis: geometry from web/draw. */
import type { AnalysedPart } from '#core/experiment/analysis/analysis.ts';
import type { Residual } from '#core/experiment/analysis/residuals.ts';
import { besideNames, seatedTrials, type SeatedTrial } from '#core/experiment/answer/seats.ts';
import { seatMeans } from '#core/experiment/answer/settings.ts';
import { trialsOnCurve } from '#core/experiment/budget/curve-of-trials.ts';
import type { Plan } from '#core/experiment/plan/plan.ts';
import type { ExperimentView } from '#core/experiment/view.ts';
import type { TrialView } from '#core/live-messages.ts';
import { meanOf } from '#core/metrology/type-a/series.ts';
import { niceAxis, type Axis } from '../draw/axis.ts';
import { acrossByLevels, type LevelPlot } from '../draw/level-marks.ts';
import { acrossInOrder } from '../draw/order-marks.ts';
import { powerAxisOf } from '../draw/power-axis.ts';
import {
  acrossByWind,
  type Across,
  type CurveMark,
  type Ground,
} from '../draw/trial-marks.ts';
import { asShares, onCurve, powerMeans, shareAxis, shareMeans } from '../draw/wind-marks.ts';
import { limitsOf } from '../view/answer-plot.tsx';
import type { PlotBox } from '../view/field-box.ts';

export type PlotName = 'answer' | 'wind' | 'share' | 'residuals' | 'order';

/** One unit of a picture on the report, its own pixels: as large as the page's type. */
export const REM = 16;
/** All in such units. */
const WIDTH = 46;
/** The answer is read from the back of a room; the rest at a desk. */
const HEIGHTS: Readonly<Record<PlotName, number>> = {
  answer: 21.5,
  wind: 15.5,
  share: 15.5,
  residuals: 15.5,
  order: 15.5,
};
/** Kept free at the right for the names of the grid lines, rem. */
const LABEL_ROOM = 4.5;

export interface PictureBox extends PlotBox {
  readonly width: number;
  /** Of the whole picture: below the plot's own names stands what they are. */
  readonly whole: number;
}

export function boxOf(name: PlotName, rem = REM): PictureBox {
  const whole = HEIGHTS[name] * rem;
  return {
    rem,
    width: WIDTH * rem,
    whole,
    height: whole - 1.3 * rem,
    plotLeft: 0,
    plotRight: WIDTH * rem,
    top: 4.2 * rem,
    bottom: whole - 3.1 * rem,
  };
}

function groundOf(rem: number): Ground {
  return { left: 0, right: (WIDTH - LABEL_ROOM) * rem, rem };
}

const GROUND = groundOf(REM);

export interface Plotted {
  readonly across: Across;
  readonly axis: Axis;
}

/** What the picture of the answer is made of. */
export interface AnswerSource {
  readonly experiment: ExperimentView;
  readonly plan: Plan;
  readonly trials: readonly TrialView[];
  readonly part: Pick<AnalysedPart, 'answer' | 'place'>;
  readonly noRun: string;
  readonly notInPlan: string;
  readonly others: string;
}

/** What all pictures are made of. */
export interface PlotSource extends AnswerSource {
  readonly part: AnalysedPart;
}

/** Means and curve are left for the students to draw. */
export function answerPlot(source: AnswerSource, isForStudents: boolean, rem = REM): Plotted {
  const { part, trials } = source;
  const { settings, curve, optimum } = part.answer;
  const found = isForStudents
    ? { means: [], curve: null, most: null }
    : { means: seatMeans(settings), curve, most: limitsOf(optimum) };
  return {
    across: acrossByLevels(
      { ...levelsOf(source), ...found, seated: seatedOf(source) },
      groundOf(rem),
    ),
    axis: powerAxisOf(trials, null),
  };
}

/** Null where the wind was hardly ever measured. */
export function windPlot(source: PlotSource): Plotted | null {
  const trials = seatedOf(source).map(({ trial }) => trial);
  if (trials.filter(({ windSpeed_mps }) => windSpeed_mps !== null).length < 2) return null;
  const means = powerMeans(source.part.powerCurve);
  const across = acrossByWind(trials, null, GROUND, means);
  const axis = powerAxisOf(trials, null);
  return { across: means.length === 0 ? across : onCurve(across), axis };
}

/** The share of the wind's power, by the same bins; null where there is no power curve. */
export function sharePlot({ experiment, trials, part }: PlotSource): Plotted | null {
  const { powerCurve } = part;
  if (powerCurve.length === 0) return null;
  const tried = part.answer.settings.flatMap((setting) => setting.trials);
  const turning = tried.filter(({ rotorStill }) => !rotorStill);
  const placed = trialsOnCurve(turning, experiment);
  const means = shareMeans(powerCurve);
  const across = onCurve(acrossByWind(asShares(trials, placed), null, GROUND, means));
  return { across, axis: shareAxis(placed, means) };
}

/** Null where no level was set twice. */
export function residualPlot(source: PlotSource): Plotted | null {
  const left = whatIsLeft(source);
  if (left.length === 0) return null;
  const bare = { means: [], curve: null, most: null };
  const across = acrossByLevels({ ...levelsOf(source), ...bare, seated: left }, GROUND);
  return { across, axis: residualAxis(source.part.residuals) };
}

export function orderPlot(source: PlotSource): Plotted | null {
  const left = whatIsLeft(source).map(({ trial }) => trial);
  if (left.length === 0) return null;
  const across = acrossInOrder(left, GROUND);
  const curve = driftLine(source.part, across);
  return { across: { ...across, curve }, axis: residualAxis(source.part.residuals) };
}

/** The straight line of a drift, from the first mark to the last; none where none is seen. */
function driftLine({ crept }: AnalysedPart, { marks }: Across): readonly CurveMark[] {
  const places = marks.map(({ x }) => x);
  if (crept === null || places.length === 0) return [];
  const [first, last] = [Math.min(...places), Math.max(...places)];
  const middle = meanOf(places);
  return [first, last].map((x): CurveMark => {
    const mean = (crept.change_W * (x - middle)) / (last - first);
    return { x, mean, low: mean, high: mean };
  });
}

type Fixed = 'levels' | 'besideCount' | 'current' | 'isFinished' | 'noRun' | 'notInPlan' | 'others';

function levelsOf(source: AnswerSource): Pick<LevelPlot, Fixed> {
  const { plan, part, noRun, notInPlan, others } = source;
  return {
    levels: part.answer.factor.levels,
    besideCount: besideNames(plan, part.place).length,
    current: null,
    isFinished: true,
    noRun,
    notInPlan,
    others,
  };
}

function seatedOf({ experiment, trials, part }: AnswerSource): readonly SeatedTrial<TrialView>[] {
  return seatedTrials(experiment, trials, part.place);
}

/** Each setting as a trial whose power is what is left of it beside the mean of its level. */
function whatIsLeft({ part, trials }: PlotSource): readonly SeatedTrial<TrialView>[] {
  return part.residuals.flatMap(({ trialIds, seat, residual_W }) => {
    const trial = trials.find(({ id }) => id === trialIds[0]);
    if (trial === undefined) return [];
    const power_W = { value: residual_W, standardUncertainty: null, degreesOfFreedom: 0 };
    return [{ seat, trial: { ...trial, rotorStill: false, power_W } }];
  });
}

/** As far below nothing as above. */
function residualAxis(residuals: readonly Residual[]): Axis {
  const most = Math.max(...residuals.map(({ residual_W }) => Math.abs(residual_W)));
  return niceAxis(-most, most, 1);
}
