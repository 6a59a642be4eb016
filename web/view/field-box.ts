/** Where curve, gap and answer plot lie in the power field, CSS pixels. */
import { pixelOf, type Axis } from '../draw/axis.ts';
import { WINDOW_S } from '../draw/window-buffer.ts';
import type { Size } from './use-size.ts';

/** Where a plot on a power axis lies. */
export interface PlotBox {
  /** Of the drawing: the names below the plot stand at its end. */
  readonly height: number;
  readonly rem: number;
  readonly plotLeft: number;
  readonly plotRight: number;
  readonly top: number;
  readonly bottom: number;
  /** Rows that names may take below the plot, from `height` on; one unless it is told. */
  readonly nameRows?: number;
}

export interface FieldBox extends Size, PlotBox {
  readonly curveRight: number;
}

/** Room above the plot for the topmost label and below it for the names, rem. */
const ABOVE = 1.35;
const BELOW = 1.75;
/** Between curve and plot, rem; the style sheet's columns agree with it. */
const WIDE_GAP = 4.2;
const NARROW_GAP = 0.9;
const NARROW = 36;
/** The curve's share of the width that gap and plot leave. */
const CURVE_SHARE = 0.358;

export function boxOf({ width, height, rem }: Size): FieldBox {
  const gap = (width > NARROW * rem ? WIDE_GAP : NARROW_GAP) * rem;
  const curveRight = (width - gap) * CURVE_SHARE;
  return {
    width,
    height,
    rem,
    curveRight,
    plotLeft: curveRight + gap,
    plotRight: width,
    top: ABOVE * rem,
    bottom: Math.max(height - BELOW * rem, ABOVE * rem + 1),
  };
}

/** Pixel of a power on the shared axis. */
export function powerY(
  box: Pick<PlotBox, 'top' | 'bottom'>,
  axis: Axis,
  power_W: number,
): number {
  return pixelOf(power_W, axis, box.top, box.bottom);
}

type Curved = Pick<FieldBox, 'curveRight'>;

/** Pixel of a stream time on a curve of the last minute. */
export function curveX({ curveRight }: Curved, time_s: number, now_s: number): number {
  return curveRight * (1 - (now_s - time_s) / WINDOW_S);
}
