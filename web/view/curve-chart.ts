/** One curve of the last minute on a canvas: thin where it moves, heavy where it was settled. */
import uPlot from 'uplot';
import type { Axis } from '../draw/axis.ts';
import type { CurveData, Stretch } from '../draw/pixel-columns.ts';
import { WINDOW_S } from '../draw/window-buffer.ts';
import { rem_px } from './use-size.ts';

export interface CurveLook {
  /** Custom property that holds the curve's colour. */
  readonly colour: string;
  /** Widths of the line where it moves and where it was settled, CSS pixels at 1 rem = 16. */
  readonly moving: number;
  readonly settled: number;
  /** Whether it draws its own line at zero. */
  readonly hasFloor: boolean;
}

export interface CurveChart {
  /** Columns of pixels that a curve has room for. */
  columns(): number;
  draw(drawn: {
    data: CurveData;
    axis: Axis;
    now_s: number;
    stretches: readonly Stretch[];
    isLive: boolean;
  }): void;
  resize(): void;
  remove(): void;
}

/** Room above and below, so that a heavy line on the axis' end is drawn whole; in CSS pixels. */
export const BLEED = 4;

export function createCurveChart(host: HTMLElement, look: CurveLook): CurveChart {
  let window_s: [number, number] = [0, WINDOW_S];
  let range: [number, number] = [0, 1];
  let stretches: readonly Stretch[] = [];
  let isLive = true;
  const colour = (name: string): string => getComputedStyle(host).getPropertyValue(name).trim();
  const stroke = (): string => colour(isLive ? look.colour : '--line');
  const scale = rem_px() / 16;
  const options: uPlot.Options = {
    ...sizeOf(host),
    padding: [BLEED, 0, BLEED, 0],
    pxAlign: false,
    cursor: { show: false },
    legend: { show: false },
    scales: { x: { time: false, range: () => window_s }, y: { range: () => range } },
    axes: [{ show: false }, { show: false }],
    series: [
      {},
      { stroke, width: look.moving * scale, points: { show: false } },
      { stroke, width: look.settled * scale, points: { show: false } },
    ],
    hooks: {
      drawClear: [
        (plot) => shade(plot, stretches, colour('--tint')),
        (plot) => look.hasFloor && drawFloor(plot, colour('--line')),
      ],
    },
  };
  const plot = new uPlot(options, [[], [], []], host);
  return {
    columns: () => Math.max(Math.round(plot.bbox.width / devicePixelRatio), 1),
    draw(drawn) {
      window_s = [drawn.now_s - WINDOW_S, drawn.now_s];
      range = [drawn.axis.low, drawn.axis.high];
      stretches = drawn.stretches;
      isLive = drawn.isLive;
      plot.setData([drawn.data.time_s, drawn.data.all, drawn.data.settled]);
    },
    resize: () => plot.setSize(sizeOf(host)),
    remove: () => plot.destroy(),
  };
}

function sizeOf(host: HTMLElement): { width: number; height: number } {
  return { width: Math.max(host.clientWidth, 1), height: Math.max(host.clientHeight, 1) };
}

/** Tints the settled stretches, behind the curve. */
function shade(plot: uPlot, stretches: readonly Stretch[], tint: string): void {
  const { ctx, bbox } = plot;
  ctx.fillStyle = tint;
  for (const { from_s, to_s } of stretches) {
    const left = Math.max(plot.valToPos(from_s, 'x', true), bbox.left);
    const right = Math.min(plot.valToPos(to_s, 'x', true), bbox.left + bbox.width);
    if (right > left) ctx.fillRect(left, bbox.top, right - left, bbox.height);
  }
}

/** The line at zero. */
function drawFloor(plot: uPlot, line: string): void {
  const { ctx, bbox } = plot;
  const y = Math.round(plot.valToPos(0, 'y', true));
  ctx.fillStyle = line;
  ctx.fillRect(bbox.left, y, bbox.width, Math.max(Math.round(devicePixelRatio), 1));
}
