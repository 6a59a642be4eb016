/** Power in the last minute and the answer plot on one power axis, threads running between them. */
import { useSignalEffect } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import { hasReadings } from '../model/stage.ts';
import { timeOfDay } from '../model/words.ts';
import { AnswerPlot } from './answer-plot.tsx';
import { PlotChoice, plotTitle } from './plot-choice.tsx';
import { createCurveChart, type CurveChart } from './curve-chart.ts';
import { boxOf, type FieldBox } from './field-box.ts';
import { FieldGround, StretchNames } from './field-ground.tsx';
import type { PageState } from './page-state.ts';
import { FieldPicture, ResultPicture } from './field-picture.tsx';
import { SavePicture } from './save-picture.tsx';
import { ThreadLayer } from './thread-layer.tsx';
import { useSize } from './use-size.ts';

export function PowerField({ page }: { page: PageState }) {
  const host = useRef<HTMLDivElement>(null);
  const size = useSize(host);
  const box = boxOf(size);
  return (
    <section class="power-field" aria-label={page.words.value.quantity.power_W}>
      <FieldHeads page={page} />
      <div class="field" ref={host}>
        {size.width > 0 && (
          <>
            <FieldGround page={page} box={box} />
            <PowerCurve page={page} box={box} />
            <svg class="front" width={size.width} height={size.height} aria-hidden="true">
              <StretchNames page={page} box={box} />
              <ThreadLayer page={page} box={box} />
              <AnswerPlot page={page} box={box} />
            </svg>
            <KeepField page={page} />
          </>
        )}
      </div>
    </section>
  );
}

/** Only while the curves are frozen: what is saved is what is looked at. */
function KeepField({ page }: { page: PageState }) {
  if (page.drawing.pausedAt.value === null) return null;
  const words = page.words.value;
  return (
    <div class="keep-field">
      <SavePicture
        words={words}
        title={words.top.field.lastMinute}
        name="power"
        draw={() => <FieldPicture page={page} />}
      />
      <SavePicture
        words={words}
        title={plotTitle(page)}
        name="result"
        draw={() => <ResultPicture page={page} />}
      />
    </div>
  );
}

function FieldHeads({ page }: { page: PageState }) {
  const { pausedAt } = page.drawing;
  const frozen = pausedAt.value;
  const say = page.words.value.top.field;
  return (
    <div class="field-heads">
      <h2 class={frozen === null ? 'soft' : 'frozen'}>
        {frozen === null
          ? say.lastMinute
          : say.frozenAt(timeOfDay(frozen.toISOString()))}
      </h2>
      <PlotChoice page={page} />
    </div>
  );
}

function PowerCurve({ page, box }: { page: PageState; box: FieldBox }) {
  const host = useRef<HTMLDivElement>(null);
  const chart = useRef<CurveChart | null>(null);
  useEffect(() => {
    if (host.current === null) return undefined;
    const look = { colour: '--ink', moving: 1.75, settled: 5, hasFloor: false };
    chart.current = createCurveChart(host.current, look);
    return () => chart.current?.remove();
  }, [box.rem]);
  useEffect(() => {
    if (host.current === null) return;
    host.current.style.width = `${box.curveRight}px`;
    host.current.style.top = `${box.top - 4}px`;
    host.current.style.height = `${box.bottom - box.top + 8}px`;
    chart.current?.resize();
    page.powerColumns.value = chart.current?.columns() ?? 200;
  }, [box.curveRight, box.top, box.bottom, box.rem]);
  useSignalEffect(() => {
    const data = page.powerCurve.value;
    const axis = page.powerAxis.value;
    page.settings.isDark.value;
    const isLive = hasReadings(page.bench.stage.value);
    chart.current?.draw({ data, axis, isLive, ...page.drawing.frame.peek() });
  });
  return <div class="curve power-curve" ref={host} aria-hidden="true" />;
}
