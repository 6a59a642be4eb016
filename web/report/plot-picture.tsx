/** A plot of trials on a power axis that is read by itself. */
import type { Prefix } from '#core/metrology/format.ts';
import { unitOf } from '../model/quantities.ts';
import { MarksPlot } from '../view/answer-plot.tsx';
import { PictureHead, type PictureSource } from '../view/picture-head.tsx';
import { PowerGrid } from '../view/power-grid.tsx';
import type { PictureBox, Plotted } from './plot-parts.ts';

interface PlotPictureProps {
  readonly page: PictureSource;
  readonly prefix: Prefix;
  readonly title: string;
  /** What runs along the axis below. */
  readonly across: string;
  readonly plotted: Plotted;
  readonly box: PictureBox;
  /** Each dash has a line of its own. */
  readonly hasLines: boolean;
  /** All of it in words. */
  readonly label: string;
}

export function PlotPicture(drawn: PlotPictureProps) {
  const { page, prefix, title, across, plotted, box, hasLines, label } = drawn;
  const words = page.words.value;
  return (
    <svg class="picture" viewBox={`0 0 ${box.width} ${box.whole}`} role="img" aria-label={label}>
      <PictureHead
        page={page}
        title={`${title}, ${unitOf('power_W', prefix)}`}
        right={box.width}
        rem={box.rem}
      />
      <PowerGrid {...{ prefix, words, box }} axis={plotted.axis} left={box.plotLeft} lift={0.3} />
      <MarksPlot
        {...plotted}
        box={box}
        atLeast={words.plan.atLeast}
        hasLines={hasLines}
        nowId={null}
      />
      <text class="soft" x={box.width} y={box.whole - 0.4 * box.rem} text-anchor="end">
        {across}
      </text>
    </svg>
  );
}
