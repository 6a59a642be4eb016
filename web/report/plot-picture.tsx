/** A plot of trials that is read by itself. */
import type { ComponentChildren } from 'preact';
import { MarksPlot } from '../view/answer-plot.tsx';
import { AxisGrid } from '../view/axis-grid.tsx';
import { PictureHead, type PictureSource } from '../view/picture-head.tsx';
import type { PictureBox, Plotted } from './plot-parts.ts';

interface PlotPictureProps {
  readonly page: PictureSource;
  /** Of the axis at the right: the unit with its prefix, and the prefix' power of ten. */
  readonly unit: string;
  readonly exponent: number;
  readonly title: string;
  /** What runs along the axis below. */
  readonly across: string;
  readonly plotted: Plotted;
  readonly box: PictureBox;
  /** Each dash has a line of its own. */
  readonly hasLines: boolean;
  /** All of it in words. */
  readonly label: string;
  /** What else stands on it. */
  readonly children?: ComponentChildren;
}

export function PlotPicture(drawn: PlotPictureProps) {
  const { page, unit, exponent, title, across, plotted, box, hasLines, label } = drawn;
  const words = page.words.value;
  return (
    <svg class="picture" viewBox={`0 0 ${box.width} ${box.whole}`} role="img" aria-label={label}>
      <PictureHead
        page={page}
        title={`${title}, ${unit}`}
        right={box.width}
        rem={box.rem}
      />
      <AxisGrid
        {...{ unit, exponent, words, box }}
        axis={plotted.axis}
        left={box.plotLeft}
        lift={0.3}
      />
      <MarksPlot
        {...plotted}
        box={box}
        atLeast={words.plan.atLeast}
        hasLines={hasLines}
        nowId={null}
      />
      {drawn.children}
      <text class="soft" x={box.width} y={box.whole - 0.4 * box.rem} text-anchor="end">
        {across}
      </text>
    </svg>
  );
}
