/** The frozen strips as one picture: a plot each, one below the other, over one minute. */
import type { Axis } from '../draw/axis.ts';
import type { CurveData } from '../draw/pixel-columns.ts';
import { unitOf } from '../model/quantities.ts';
import { AxisGrid } from './axis-grid.tsx';
import { curveX } from './field-box.ts';
import { namedStretches } from './field-ground.tsx';
import type { PageState } from './page-state.ts';
import { HEAD_ROOM, PictureHead } from './picture-head.tsx';
import { StillCurve, StretchTints } from './still-curve.tsx';
import { rem_px } from './use-size.ts';

export interface StillStrip {
  readonly quantity: 'voltage_V' | 'current_A' | 'windSpeed_mps';
  readonly data: CurveData;
  readonly axis: Axis;
  /** Its marker from the corner of a square of ten, as moves of a path. */
  readonly marker: string;
}

/** Rem. */
const WIDTH = 46;
const EACH = 10;
const PLOT = 7.4;
const BELOW = 2;

interface StripsPictureProps {
  readonly page: PageState;
  readonly strips: readonly StillStrip[];
}

export function StripsPicture({ page, strips }: StripsPictureProps) {
  const rem = rem_px();
  const width = WIDTH * rem;
  const top = (HEAD_ROOM - 1) * rem;
  const height = top + (strips.length * EACH + BELOW) * rem;
  const words = page.words.value;
  const { field } = words.top;
  return (
    <svg class="picture" viewBox={`0 0 ${width} ${height}`}>
      <PictureHead
        page={page}
        title={field.strips}
        at={page.drawing.pausedAt.value}
        right={width}
        rem={rem}
      />
      {strips.map((strip, i) => (
        <StripPlot key={strip.quantity} page={page} strip={strip} top={top + i * EACH * rem} rem={rem} />
      ))}
      <StretchWords page={page} y={height - 1.4 * rem} rem={rem} />
      <text class="soft" x={0} y={height - 0.4 * rem}>
        {field.minuteAgo}
      </text>
      <text class="soft" x={width} y={height - 0.4 * rem} text-anchor="end">
        {field.now}
      </text>
    </svg>
  );
}

/** Which trial a settled stretch became. */
function StretchWords({ page, y, rem }: { page: PageState; y: number; rem: number }) {
  const { now_s } = page.drawing.frame.value;
  const xOf = (time_s: number): number => curveX({ curveRight: WIDTH * rem }, time_s, now_s);
  return (
    <>
      {namedStretches(page).map(({ id, start_s, end_s }) => {
        const [left, right] = [Math.max(xOf(start_s), 0), Math.min(xOf(end_s), WIDTH * rem)];
        if (right - left < 1.2 * rem) return null;
        return (
          <text key={id} class="soft" x={(left + right) / 2} y={y} text-anchor="middle">
            {page.words.value.top.field.trial(id)}
          </text>
        );
      })}
    </>
  );
}

interface StripPlotProps {
  readonly page: PageState;
  readonly strip: StillStrip;
  readonly top: number;
  readonly rem: number;
}

function StripPlot({ page, strip, top, rem }: StripPlotProps) {
  const { quantity, data, axis, marker } = strip;
  const prefix = page.prefixes.value[quantity];
  const { exponent } = prefix;
  const words = page.words.value;
  const unit = unitOf(quantity, prefix);
  const plotTop = top + (EACH - PLOT) * rem;
  const plot = { top: plotTop, bottom: top + EACH * rem - 0.6 * rem };
  const width = WIDTH * rem;
  const curve = { frame: page.drawing.frame.value, axis, width, ...plot };
  return (
    <>
      <StretchTints {...curve} />
      <AxisGrid
        {...{ axis, unit, exponent, words, left: 0, lift: 0.3 }}
        box={{ ...plot, plotRight: width, rem }}
      />
      <StillCurve {...curve} data={data} colour={quantity} />
      <path class="marker" data-colour={quantity} d={`M0 ${plotTop - 1.4 * rem}${marker}`} />
      <text x={1.2 * rem} y={plotTop - 0.7 * rem}>
        {words.quantity[quantity]}, {unit}
      </text>
    </>
  );
}
