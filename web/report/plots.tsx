/** The pictures of a part, each with how to read it, and to be saved. */
import type { AnalysedPart } from '#core/experiment/analysis/analysis.ts';
import type { Plan } from '#core/experiment/plan/plan.ts';
import { UNIT_SPACE } from '#core/metrology/format.ts';
import { BENCH_BIN_mps, REFERENCE_DENSITY_kgpm3 } from '#core/rotor/wind/power-curve.ts';
import { ALPHA } from '#core/statistics/groups.ts';
import { unitOf } from '../model/quantities.ts';
import { limitsOf, MarksPlot } from '../view/answer-plot.tsx';
import { PictureHead } from '../view/picture-head.tsx';
import { PowerGrid } from '../view/power-grid.tsx';
import { oddsText, percentText } from './numbers.ts';
import { SavePicture } from '../view/save-picture.tsx';
import {
  answerPlot,
  boxOf,
  orderPlot,
  REM,
  residualPlot,
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
  readonly caption: string;
}

interface PictureProps {
  readonly report: Report;
  readonly name: PlotName;
  readonly title: string;
  /** What runs along the axis below. */
  readonly across: string;
  readonly plotted: Plotted;
}

function Picture(picture: PictureProps & { readonly caption: string }) {
  const { report, name, title, caption } = picture;
  return (
    <figure data-plot={name}>
      <Drawing {...picture} label={`${title}. ${caption}`} />
      <figcaption>{caption}</figcaption>
      <SavePicture
        words={report.words.value}
        title={title}
        name={name}
        draw={() => <Drawing {...picture} label={title} />}
      />
    </figure>
  );
}

function Drawing(drawn: PictureProps & { readonly label: string }) {
  const { report, name, title, across, plotted, label } = drawn;
  const { words, prefixes } = report;
  const prefix = prefixes.value.power_W;
  const box = boxOf(name);
  return (
    <svg class="picture" viewBox={`0 0 ${box.width} ${box.whole}`} role="img" aria-label={label}>
      <PictureHead
        page={report}
        title={`${title}, ${unitOf('power_W', prefix)}`}
        right={box.width}
        rem={REM}
      />
      <PowerGrid
        axis={plotted.axis}
        prefix={prefix}
        words={words.value}
        box={box}
        left={box.plotLeft}
        lift={0.3}
      />
      <MarksPlot
        {...plotted}
        box={box}
        atLeast={words.value.plan.atLeast}
        hasLines={name === 'wind'}
        nowId={null}
      />
      <text class="soft" x={box.width} y={box.whole - 0.4 * REM} text-anchor="end">
        {across}
      </text>
    </svg>
  );
}

function answerCaption({ say, isForStudents }: Report, { answer }: AnalysedPart): string {
  const { plots } = say.value;
  if (isForStudents.value) return plots.answerStudentCaption;
  const isOnce = answer.comparison.levels.every(({ count }) => count < 2);
  return [
    isOnce ? plots.answerOnceCaption : plots.answerCaption,
    ...(answer.curve === null ? [] : [plots.curveCaption]),
    ...(limitsOf(answer.optimum) === null ? [] : [plots.mostCaption]),
  ].join(' ');
}

function windCaption({ say, words }: Report, { powerCurve }: AnalysedPart): string {
  const { windCaption: marks, binCaption } = say.value.plots;
  if (powerCurve.length === 0) return marks;
  const [width, density] = [BENCH_BIN_mps, REFERENCE_DENSITY_kgpm3].map((value) =>
    words.value.number(String(value)),
  ) as [string, string];
  return `${marks} ${binCaption(`${width}${UNIT_SPACE}m/s`, `${density}${UNIT_SPACE}kg/m³`)}`;
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
