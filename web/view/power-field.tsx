/** Power in the last minute and the answer plot on one power axis, threads running between them. */
import { useSignalEffect } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import { dashShape } from '../draw/dash-shape.ts';
import { besideNames, placeAcross, runAtWork } from '#core/experiment/answer/seats.ts';
import { hasReadings } from '../model/stage.ts';
import { timeOfDay } from '../model/words.ts';
import { AnswerPlot } from './answer-plot.tsx';
import { createCurveChart, type CurveChart } from './curve-chart.ts';
import { boxOf, type FieldBox } from './field-box.ts';
import { FieldGround, StretchNames } from './field-ground.tsx';
import type { PageState } from './page-state.ts';
import { SaveField } from './save-field.tsx';
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
            <SaveField page={page} box={box} />
          </>
        )}
      </div>
    </section>
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

function PlotChoice({ page }: { page: PageState }) {
  const { plan: say, bench } = page.words.value;
  const experiment = page.bench.experiment.value;
  const { plan } = experiment;
  const place = plan === null ? 0 : placeAcross(plan, runAtWork(experiment));
  const factor = plan?.factors[place];
  const ways = [
    ...(factor === undefined ? [] : [['levels', say.powerAt(factor.name)] as const]),
    ['number', plan === null ? page.words.value.page.sectionPlot : bench.plot.byNumber] as const,
    ['wind', bench.plot.byWind] as const,
  ];
  return (
    <div class="choice" role="group" aria-label={page.words.value.page.sectionPlot}>
      {ways.map(([way, words]) => (
        <button
          key={way}
          type="button"
          aria-pressed={page.acrossBy.value === way}
          onClick={() => (page.acrossChosen.value = way)}
        >
          {words}
        </button>
      ))}
      {plan !== null && page.acrossBy.value === 'levels' && (
        <BesideNames names={besideNames(plan, place)} atLeast={say.atLeast} />
      )}
    </div>
  );
}

/** Which form of dash is which of the settings that stand side by side. */
function BesideNames({ names, atLeast }: { names: readonly string[]; atLeast: string }) {
  if (names.length < 2) return null;
  return (
    <p class="beside-names">
      {names.map((name, i) => (
        <span key={name}>
          <svg class="cell-mark" viewBox="0 0 34 12" aria-hidden="true">
            <path class="dash" d={dashShape(i, { left: 1, top: 1, width: 32, height: 10 })} />
          </svg>
          {name}
        </span>
      ))}
      <span>
        <svg class="least-sign mean least" viewBox="0 0 8 16" aria-hidden="true">
          <line class="interval" x1="4" x2="4" y1="0" y2="16" />
        </svg>
        {atLeast}
      </span>
    </p>
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
