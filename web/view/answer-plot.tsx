/** The answer plot: one mark a trial, by number or against wind, on the power axis of the curve. */
import {
  acrossByNumber,
  acrossByWind,
  DASH,
  SHORT_DASH_WIDTH,
  type Across,
  type Mark,
} from '../draw/trial-marks.ts';
import { powerY, type FieldBox } from './field-box.ts';
import type { PageState } from './page-state.ts';
import { currentTrialId } from './watch-state.ts';

interface PlotParts {
  readonly page: PageState;
  readonly box: FieldBox;
}

/** Kept free at the right for the names of the grid lines, rem. */
const LABEL_ROOM = 2;

/** Where the trials stand across the plot, and the slot of the trial to come. */
export function acrossOf(page: PageState, box: FieldBox): Across {
  const { bench } = page;
  const ground = { left: box.plotLeft, right: box.plotRight - LABEL_ROOM * box.rem, rem: box.rem };
  if (page.acrossBy.value === 'number') {
    return acrossByNumber(bench.trials.value, currentTrialId(page), ground);
  }
  const wind = bench.judgement.value?.channels.find(({ channel }) => channel === 'windSpeed_mps');
  return acrossByWind(bench.trials.value, wind?.level ?? null, ground);
}

/** Width of a dash in this plot, rem. */
export function dashWidth(page: PageState): number {
  return page.acrossBy.value === 'wind' ? SHORT_DASH_WIDTH : DASH.width;
}

export function AnswerPlot({ page, box }: PlotParts) {
  const { marks, labels } = acrossOf(page, box);
  const loggedId = page.bench.loggedTrial.value?.id;
  const y = box.height - 0.45 * box.rem;
  return (
    <g class="answer-plot">
      {marks.map((mark) => (
        <TrialMark
          key={mark.trial.id}
          mark={mark}
          page={page}
          box={box}
          isNow={mark.trial.id === loggedId}
        />
      ))}
      {labels.map(({ x, text, isNow }) => (
        <g key={text} class={isNow ? 'name now' : 'name'}>
          {isNow && (
            <rect
              x={x - (0.42 + 0.3 * text.length) * box.rem}
              y={y - 1.05 * box.rem}
              width={(0.84 + 0.6 * text.length) * box.rem}
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

function TrialMark({ mark, page, box, isNow }: PlotParts & { mark: Mark; isNow: boolean }) {
  const axis = page.powerAxis.value;
  const y = powerY(box, axis, mark.power_W);
  const [width, height] = [dashWidth(page) * box.rem, DASH.height * box.rem];
  const left = mark.x - width / 2;
  const low = powerY(box, axis, mark.power_W - mark.halfPower_W);
  const high = powerY(box, axis, mark.power_W + mark.halfPower_W);
  const hasLine = mark.form === 'good' && low - high > height;
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
        <rect
          class={mark.form === 'good' ? 'dash' : 'slot'}
          x={left}
          y={y - height / 2}
          width={width}
          height={height}
        />
      )}
      {mark.form === 'struck' && (
        <line class="slash" x1={left - 2} x2={left + width + 2} y1={y + height} y2={y - height} />
      )}
    </g>
  );
}

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
