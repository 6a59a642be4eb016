/** Readings as dots, what was fitted as a line, and how far they lie off it. */
import { niceAxis, pixelOf, type Axis } from '../draw/axis.ts';
import { decimalAt } from '#core/metrology/format.ts';
import type { FitPicture } from '../model/fit-text.ts';
import type { Catalogue } from '../words/catalogue.ts';

const WIDTH = 340;
const HEIGHT = 210;
const LEFT = 44;
const TOP = 22;
const BOTTOM = HEIGHT - 34;
const RADIUS = 4;

export function FitPlot({ picture, words }: { picture: FitPicture; words: Catalogue }) {
  const { points, line, across, up } = picture;
  const say = words.fit;
  const x = niceAxis(0, Math.max(...points.map((one) => one.x)), 1);
  const y = niceAxis(0, Math.max(...[...points, ...line].map((one) => one.y)), 1);
  const xOf = (value: number): number => {
    return LEFT + ((value - x.low) / (x.high - x.low)) * (WIDTH - LEFT - 12);
  };
  const yOf = (value: number): number => pixelOf(value, y, TOP, BOTTOM);
  const path = line.map((one, i) => `${i === 0 ? 'M' : 'L'}${xOf(one.x)} ${yOf(one.y)}`).join('');
  const tick = (value: number, axis: Axis): string => words.number(decimalAt(value, axis.place));
  return (
    <svg
      class="fit-plot"
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      role="img"
      aria-label={`${say.axis[up]}, ${say.axis[across]}. ${say.picture}`}
    >
      {y.ticks.map((value) => (
        <g key={value}>
          <path class="grid" d={`M${LEFT} ${yOf(value)}H${WIDTH - 12}`} />
          <text x={LEFT - 6} y={yOf(value) + 4} text-anchor="end">
            {tick(value, y)}
          </text>
        </g>
      ))}
      {x.ticks.map((value) => (
        <text key={value} x={xOf(value)} y={BOTTOM + 15} text-anchor="middle">
          {tick(value, x)}
        </text>
      ))}
      <text x={0} y={12}>
        {say.axis[up]}
      </text>
      <text x={WIDTH - 12} y={HEIGHT - 4} text-anchor="end">
        {say.axis[across]}
      </text>
      <path class="fitted" d={path} />
      {points.map((one, i) => (
        <g key={i} class={one.fitted === null ? 'left-out' : 'read'}>
          {one.fitted !== null && (
            <path class="off" d={`M${xOf(one.x)} ${yOf(one.y)}V${yOf(one.fitted)}`} />
          )}
          <circle cx={xOf(one.x)} cy={yOf(one.y)} r={RADIUS} />
        </g>
      ))}
    </svg>
  );
}
