/** Grid lines with their numbers, and the line of nothing, behind what stands on an axis. */
import { decimalAt, scaled, UNIT_SPACE } from '#core/metrology/format.ts';
import { pixelOf, type Axis } from '../draw/axis.ts';
import type { Catalogue } from '../words/catalogue.ts';

export interface GridProps {
  readonly axis: Axis;
  /** With its prefix. */
  readonly unit: string;
  /** The prefix' power of ten. */
  readonly exponent: number;
  readonly words: Catalogue;
  readonly box: {
    readonly top: number;
    readonly bottom: number;
    readonly plotRight: number;
    readonly rem: number;
  };
  /** Where the lines begin. */
  readonly left: number;
  /** From a line up to its name, rem. */
  readonly lift: number;
}

export function AxisGrid({ axis, unit, exponent, words, box, left, lift }: GridProps) {
  const yOf = (value: number): number => pixelOf(value, axis, box.top, box.bottom);
  const floorY = yOf(0);
  const right = box.plotRight;
  return (
    <g class="ground">
      {axis.ticks
        .filter((tick) => tick !== 0)
        .map((tick) => {
          const y = yOf(tick);
          const text = decimalAt(scaled(tick, exponent), axis.place - exponent);
          return (
            <g key={tick}>
              <line class="grid" x1={left} x2={right} y1={y} y2={y} />
              <text class="soft" x={right} y={y - lift * box.rem} text-anchor="end">
                {words.number(text)}
                {tick === axis.high ? `${UNIT_SPACE}${unit}` : ''}
              </text>
            </g>
          );
        })}
      <line class="floor" x1={left} x2={right} y1={floorY} y2={floorY} />
    </g>
  );
}
