/** Grid lines with their powers, and the line of nothing, behind what stands on a power axis. */
import { decimalAt, scaled, UNIT_SPACE, type Prefix } from '#core/metrology/format.ts';
import type { Axis } from '../draw/axis.ts';
import { unitOf } from '../model/quantities.ts';
import type { Catalogue } from '../words/catalogue.ts';
import { powerY, type PlotBox } from './field-box.ts';

interface GridProps {
  readonly axis: Axis;
  readonly prefix: Prefix;
  readonly words: Catalogue;
  readonly box: PlotBox;
  /** Where the lines begin. */
  readonly left: number;
  /** From a line up to its name, rem. */
  readonly lift: number;
}

export function PowerGrid({ axis, prefix, words, box, left, lift }: GridProps) {
  const floorY = powerY(box, axis, 0);
  const right = box.plotRight;
  return (
    <g class="ground">
      {axis.ticks
        .filter((tick) => tick !== 0)
        .map((tick) => {
          const y = powerY(box, axis, tick);
          const text = decimalAt(scaled(tick, prefix.exponent), axis.place - prefix.exponent);
          const unit = tick === axis.high ? `${UNIT_SPACE}${unitOf('power_W', prefix)}` : '';
          return (
            <g key={tick}>
              <line class="grid" x1={left} x2={right} y1={y} y2={y} />
              <text class="soft" x={right} y={y - lift * box.rem} text-anchor="end">
                {words.number(text)}
                {unit}
              </text>
            </g>
          );
        })}
      <line class="floor" x1={left} x2={right} y1={floorY} y2={floorY} />
    </g>
  );
}
