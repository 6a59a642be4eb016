/** Where the power goes, as one drawing to be read by itself. */
import type { WhyLevel } from '#core/experiment/why/why-level.ts';
import { HEAD_ROOM, PictureHead } from '../view/picture-head.tsx';
import { rem_px } from '../view/use-size.ts';
import { partsOf, rowText, type FlowPart, type FlowRow } from './flow-parts.ts';
import type { WhyPageState } from './state.ts';

/** Where things stand from the left, and how high a row is, rem. */
const AT = { bar: 22, barEnd: 42, powerEnd: 47.5, ofWind: 48.4, band: 58, kind: 67.4 } as const;
const WIDTH = 72;
const ROW = 1.75;
/** Between the two parts, for what is said there, rem. */
const BETWEEN = 2.6;

interface FlowPictureProps {
  readonly page: WhyPageState;
  readonly level: WhyLevel;
}

export function FlowPicture({ page, level }: FlowPictureProps) {
  const rem = rem_px();
  const { section, flow } = page.say.value;
  const [wind, rotor] = partsOf(level);
  const top = (HEAD_ROOM - 0.6) * rem;
  const below = top + (wind.rows.length * ROW + BETWEEN) * rem;
  const height = below + (rotor.rows.length * ROW + 0.6) * rem;
  const shared = { page, wind_W: level.point.powerFlow.wind_W, rem };
  return (
    <svg class="picture flow-drawing" viewBox={`0 0 ${WIDTH * rem} ${height}`}>
      <PictureHead
        page={page}
        title={`${section.flow} · ${flow.at(level.label)}`}
        right={WIDTH * rem}
        rem={rem}
      />
      <Rows {...shared} part={wind} top={top} />
      <text class="soft" x={AT.bar * rem} y={below - 0.9 * rem}>
        {flow.larger}
      </text>
      <Rows {...shared} part={rotor} top={below} />
    </svg>
  );
}

interface RowsProps {
  readonly page: WhyPageState;
  readonly part: FlowPart;
  readonly wind_W: number;
  readonly top: number;
  readonly rem: number;
}

function Rows({ part: { rows, whole_W }, top, rem, ...shared }: RowsProps) {
  return (
    <>
      {rows.map((row, i) => (
        <Row key={row.name} {...shared} {...{ row, whole_W, rem }} y={top + i * ROW * rem} />
      ))}
    </>
  );
}

interface RowProps extends Pick<RowsProps, 'page' | 'wind_W' | 'rem'> {
  readonly row: FlowRow;
  readonly whole_W: number;
  /** Its top. */
  readonly y: number;
}

function Row({ page, row, whole_W, wind_W, y, rem }: RowProps) {
  const { name, from_W, to_W, band, isLeft } = row;
  const text = rowText(page, row, wind_W);
  const line = y + 1.2 * rem;
  const x = (power_W: number): number =>
    (AT.bar + ((AT.barEnd - AT.bar) * Math.max(power_W, 0)) / whole_W) * rem;
  const middle = y + 0.87 * rem;
  return (
    <g class={name === 'measured' ? 'measured' : ''}>
      <text class={name === 'measured' ? 'now' : ''} x={0} y={line}>
        {page.say.value.flow.row[name]}
      </text>
      <rect
        class={isLeft ? 'kept' : 'lost'}
        x={x(from_W)}
        width={Math.max(x(to_W) - x(from_W), 1)}
        y={y + 0.35 * rem}
        height={1.05 * rem}
      />
      {isLeft && band !== null && to_W < whole_W && (
        <path class="reach" d={`M${x(band.low_W)} ${middle}H${x(band.high_W)}`} />
      )}
      <text class="now" x={AT.powerEnd * rem} y={line} text-anchor="end">
        {text.power}
      </text>
      {text.ofWind !== null && (
        <text x={AT.ofWind * rem} y={line}>
          {text.ofWind}
        </text>
      )}
      {text.band !== null && (
        <text class="soft" x={AT.band * rem} y={line}>
          {text.band}
        </text>
      )}
      <text class="soft" x={AT.kind * rem} y={line}>
        {text.kind}
      </text>
    </g>
  );
}
