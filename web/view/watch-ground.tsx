/** Grid lines with their powers, and the floor, behind an answer plot that stands alone. */
import { decimalAt, scaled, UNIT_SPACE } from '#core/metrology/format.ts';
import { unitOf } from '../model/quantities.ts';
import { powerY, type FieldBox } from './field-box.ts';
import type { WatchState } from './watch-state.ts';

export function WatchGround({ page, box }: { page: WatchState; box: FieldBox }) {
  const axis = page.powerAxis.value;
  const prefix = page.prefixes.value.power_W;
  const floorY = powerY(box, axis, 0);
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
              <line class="grid" x1={box.plotLeft} x2={box.plotRight} y1={y} y2={y} />
              <text class="soft" x={box.plotRight} y={y - 0.2 * box.rem} text-anchor="end">
                {page.words.value.number(text)}
                {unit}
              </text>
            </g>
          );
        })}
      <line class="floor" x1={box.plotLeft} x2={box.plotRight} y1={floorY} y2={floorY} />
    </g>
  );
}
