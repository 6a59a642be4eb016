/** The frozen power field, and the result plot alone, as pictures. */
import { unitOf } from '../model/quantities.ts';
import { AnswerPlot } from './answer-plot.tsx';
import { boxOf, type FieldBox } from './field-box.ts';
import { FieldGround, PlotGrid, StretchNames } from './field-ground.tsx';
import type { PageState } from './page-state.ts';
import { HEAD_ROOM, PictureHead } from './picture-head.tsx';
import { plotTitle } from './plot-choice.tsx';
import { StillCurve, StretchTints } from './still-curve.tsx';
import { rem_px } from './use-size.ts';

/** As wide as two plots of the report, rem. */
const FIELD = { width: 72, height: 25 } as const;

export function FieldPicture({ page }: { page: PageState }) {
  const rem = rem_px();
  const box = under(boxOf({ width: FIELD.width * rem, height: FIELD.height * rem, rem }));
  const frame = page.drawing.frame.value;
  const axis = page.powerAxis.value;
  const curve = { frame, axis, width: box.curveRight, top: box.top, bottom: box.bottom };
  const words = page.words.value;
  return (
    <svg class="picture" viewBox={`0 0 ${box.width} ${box.height}`}>
      <PictureHead
        page={page}
        title={`${words.quantity.power_W}, ${unitOf('power_W', page.prefixes.value.power_W)}`}
        at={page.drawing.pausedAt.value}
        question={page.bench.experiment.value.plan?.question}
        right={box.width}
        rem={rem}
      />
      <StretchTints {...curve} />
      <FieldGround page={page} box={box} />
      <StillCurve {...curve} data={page.powerCurve.value} colour="power" />
      <StretchNames page={page} box={box} />
      <AnswerPlot page={page} box={box} />
      <text x={0} y={box.top - 0.6 * rem}>
        {words.top.field.lastMinute}
      </text>
      <text x={box.plotLeft} y={box.top - 0.6 * rem}>
        {plotTitle(page)}
      </text>
    </svg>
  );
}

/** As wide as a plot of the report, rem. */
const RESULT = { width: 46, height: 22 } as const;

export function ResultPicture({ page }: { page: PageState }) {
  const rem = rem_px();
  const [width, height] = [RESULT.width * rem, RESULT.height * rem];
  const whole = boxOf({ width, height, rem });
  const box = under({ ...whole, curveRight: 0, plotLeft: 0 });
  const isShare = page.acrossBy.value === 'share';
  const unit = isShare ? '%' : unitOf('power_W', page.prefixes.value.power_W);
  return (
    <svg class="picture" viewBox={`0 0 ${box.width} ${box.height}`}>
      <PictureHead
        page={page}
        title={`${plotTitle(page)}, ${unit}`}
        right={width}
        rem={rem}
      />
      <PlotGrid page={page} box={box} left={0} />
      <AnswerPlot page={page} box={box} />
    </svg>
  );
}

/** The field below the head of a picture. */
function under(box: FieldBox): FieldBox {
  const room = (HEAD_ROOM - 0.6) * box.rem;
  return {
    ...box,
    height: box.height + room,
    top: box.top + room,
    bottom: box.bottom + room,
  };
}
