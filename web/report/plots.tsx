/** The pictures of a part, each with how to read it, and to be saved. */
import type { AnalysedPart } from '#core/experiment/analysis/analysis.ts';
import type { Plan } from '#core/experiment/plan/plan.ts';
import { UNIT_SPACE } from '#core/metrology/format.ts';
import { BENCH_BIN_mps, REFERENCE_DENSITY_kgpm3 } from '#core/rotor/wind/power-curve.ts';
import { ALPHA } from '#core/statistics/groups.ts';
import { unitOf } from '../model/quantities.ts';
import { limitsOf } from '../view/answer-plot.tsx';
import { oddsText, percentText } from './numbers.ts';
import { PlotPicture } from './plot-picture.tsx';
import { SavePicture } from '../view/save-picture.tsx';
import { BetzLimit } from '../view/wind-plot.tsx';
import {
  answerPlot,
  boxOf,
  orderPlot,
  residualPlot,
  sharePlot,
  windPlot,
  type Plotted,
  type PlotName,
  type PlotSource,
} from './plot-parts.ts';
import { Section } from './section.tsx';
import type { Report } from './state.ts';

interface PlotsProps {
  readonly report: Report;
  readonly plan: Plan;
  readonly part: AnalysedPart;
}

export function Plots({ report, plan, part }: PlotsProps) {
  const { bench, words, say, isForStudents } = report;
  const source: PlotSource = {
    experiment: bench.experiment.value,
    plan,
    trials: bench.trials.value,
    part,
    noRun: words.value.bench.plot.noRun,
    notInPlan: words.value.bench.plot.notInPlan,
    others: words.value.bench.plot.others,
  };
  const { plots, section } = say.value;
  const isBlank = isForStudents.value;
  const name = part.answer.factor.name;
  const drawn: Asked[] = [
    {
      name: 'answer',
      title: words.value.plan.powerAt(name),
      across: name,
      plotted: answerPlot(source, isBlank),
      caption: answerCaption(report, part),
    },
    {
      name: 'wind',
      title: plots.wind,
      across: plots.byWind,
      plotted: isBlank ? null : windPlot(source),
      caption: windCaption(report, part),
    },
    {
      name: 'share',
      title: plots.share,
      across: plots.byWind,
      plotted: isBlank ? null : sharePlot(source),
      caption: `${plots.shareCaption} ${plots.linesCaption}`,
    },
    {
      name: 'residuals',
      title: plots.residuals,
      across: name,
      plotted: isBlank ? null : residualPlot(source),
      caption: `${plots.residualCaption} ${scatterSaid(report, part)}`,
    },
    {
      name: 'order',
      title: plots.order,
      across: plots.byOrder,
      plotted: isBlank ? null : orderPlot(source),
      caption: `${plots.orderCaption} ${driftSaid(report, part)}`,
    },
  ];
  return (
    <Section name={section.plots} class="wide">
      {drawn.map(({ plotted, ...one }) =>
        plotted === null ? null : (
          <Picture key={one.name} report={report} plotted={plotted} {...one} />
        ),
      )}
    </Section>
  );
}

interface Asked extends Omit<PictureProps, 'report' | 'plotted'> {
  readonly plotted: Plotted | null;
}

interface PictureProps {
  readonly report: Report;
  readonly name: PlotName;
  readonly title: string;
  /** What runs along the axis below. */
  readonly across: string;
  readonly plotted: Plotted;
  readonly caption: string;
}

function Picture({ report, name, title, across, plotted, caption }: PictureProps) {
  const words = report.words.value;
  const prefix = report.prefixes.value.power_W;
  const box = boxOf(name);
  const isShare = name === 'share';
  const draw = (label: string) => (
    <PlotPicture
      {...{ page: report, title, across, plotted, box, label }}
      unit={isShare ? '%' : unitOf('power_W', prefix)}
      exponent={isShare ? -2 : prefix.exponent}
      hasLines={name === 'wind'}
    >
      {isShare && <BetzLimit axis={plotted.axis} words={words} box={box} />}
    </PlotPicture>
  );
  return (
    <figure data-plot={name}>
      {draw(`${title}. ${caption}`)}
      <figcaption>{caption}</figcaption>
      <SavePicture words={words} title={title} name={name} draw={() => draw(title)} />
    </figure>
  );
}

function answerCaption({ say, isForStudents }: Report, { answer }: AnalysedPart): string {
  const { plots } = say.value;
  if (isForStudents.value) return plots.answerStudentCaption;
  const isLaw = answer.load?.kind === 'known' && answer.load.curve !== null;
  const isOnce = answer.comparison.levels.every(({ count }) => count < 2);
  return [
    isOnce ? plots.answerOnceCaption : plots.answerCaption,
    ...(answer.curve === null ? [] : [isLaw ? plots.sourceCaption : plots.curveCaption]),
    ...(limitsOf(answer.optimum) === null ? [] : [plots.mostCaption]),
  ].join(' ');
}

function windCaption({ say, words }: Report, { powerCurve }: AnalysedPart): string {
  const { windCaption: marks, binCaption } = say.value.plots;
  if (powerCurve.length === 0) return marks;
  const [width, density] = [BENCH_BIN_mps, REFERENCE_DENSITY_kgpm3].map((value) =>
    words.value.number(String(value)),
  ) as [string, string];
  const bins = binCaption(`${width}${UNIT_SPACE}m/s`, `${density}${UNIT_SPACE}kg/m³`);
  return `${marks} ${bins} ${say.value.plots.linesCaption}`;
}

function scatterSaid({ say, words }: Report, { scatter, answer }: AnalysedPart): string {
  const { plots } = say.value;
  if (scatter === null) return '';
  const { equalScatter } = answer.comparison;
  // A standard deviation from a lesson's settings is known to one digit.
  const size = plots.scatter(percentText(scatter.share, words.value, 1));
  if (equalScatter === null) return size;
  return `${size} ${equalScatter.p < ALPHA ? plots.scatterUnlike : plots.scatterAlike}`;
}

function driftSaid({ say, words }: Report, { answer, crept }: AnalysedPart): string {
  const { plots } = say.value;
  if (answer.comparison.drift === null) return plots.driftUnknown;
  if (crept === null) return plots.noDrift;
  const said = crept.share < 0 ? plots.fell : plots.rose;
  return said(percentText(crept.share, words.value, 1), oddsText(crept.p, say.value));
}
