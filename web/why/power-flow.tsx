/**
 * Where the power goes, from the wind to the load, as bars that get shorter: what is left stands at
 * the left, what is lost at the end of the bar above. Below the rotor all is drawn larger, for the
 * rotor takes little of the wind.
 */
import type { KnownWhy } from '#core/experiment/why/why.ts';
import type { WhyLevel } from '#core/experiment/why/why-level.ts';
import { prefixFor, UNIT_SPACE } from '#core/metrology/format.ts';
import type { Band } from '#core/rotor/power-flow.ts';
import { BETZ_LIMIT } from '#core/rotor/wind/wind-power.ts';
import { powerText } from '../model/budget.ts';
import { roughText } from '../model/why-text.ts';
import type { WhyWords } from '../words/why-words.ts';
import type { WhyPageState } from './state.ts';

const LONG = 1000;

interface FlowRow {
  readonly name: keyof WhyWords['flow']['row'];
  /** Where its bar begins and ends, W. */
  readonly from_W: number;
  readonly to_W: number;
  /** Null where it is not worked out. */
  readonly band: { readonly low_W: number; readonly high_W: number } | null;
  /** What is left, as against what is lost here. */
  readonly isLeft: boolean;
}

interface FlowPart {
  readonly rows: readonly FlowRow[];
  /** That fills the width, W. */
  readonly whole_W: number;
}

/** The level that gave the most, else that the model expects to; null where it would not start. */
export function flowLevel({ levels, best }: KnownWhy): WhyLevel | null {
  const level = levels[best.measured ?? best.model.level ?? -1];
  return level?.point.starts ? level : null;
}

export function partsOf({ point, measured }: WhyLevel): readonly [FlowPart, FlowPart] {
  const { wind_W, rotor_W, friction_W, winding_W, load_W, band } = point.powerFlow;
  const left = (name: FlowRow['name'], to_W: number, band: Band | null): FlowRow => {
    return { name, from_W: 0, to_W, band, isLeft: true };
  };
  const lost = (name: FlowRow['name'], from_W: number, to_W: number, band: Band | null): FlowRow => {
    return { name, from_W, to_W, band, isLeft: false };
  };
  const most_W = BETZ_LIMIT * wind_W;
  const read = measuredRow(measured);
  return [
    {
      whole_W: wind_W,
      rows: [
        left('wind', wind_W, band.wind_W),
        lost('never', most_W, wind_W, null),
        lost('left', Math.min(rotor_W, most_W), most_W, null),
        left('rotor', rotor_W, band.rotor_W),
      ],
    },
    {
      // What the load may get by the model can be more than its best guess of the rotor's.
      whole_W: Math.max(rotor_W, band.load_W.high_W, read?.band?.high_W ?? read?.to_W ?? 0),
      rows: [
        lost('friction', rotor_W - friction_W, rotor_W, band.friction_W),
        lost('winding', load_W, load_W + winding_W, band.winding_W),
        left('load', load_W, band.load_W),
        ...(read === null ? [] : [read]),
      ],
    },
  ];
}

function measuredRow(measured: WhyLevel['measured']): FlowRow | null {
  if (measured === null || measured.count === 0) return null;
  const { mean_W, low_W, high_W } = measured;
  const band = low_W === null || high_W === null ? null : { low_W, high_W };
  return { name: 'measured', from_W: 0, to_W: mean_W, band, isLeft: true };
}

export function PowerFlow({ page, level }: { page: WhyPageState; level: WhyLevel }) {
  const { flow } = page.say.value;
  const [wind, rotor] = partsOf(level);
  return (
    <div class="power-flow">
      <p class="flow-level">{flow.at(level.label)}</p>
      <Rows page={page} part={wind} wind_W={level.point.powerFlow.wind_W} />
      <p class="larger soft">{flow.larger}</p>
      <Rows page={page} part={rotor} wind_W={level.point.powerFlow.wind_W} />
      {level.isFar && <p>{flow.apart}</p>}
    </div>
  );
}

interface RowsProps {
  readonly page: WhyPageState;
  readonly part: FlowPart;
  readonly wind_W: number;
}

function Rows({ page, part: { rows, whole_W }, wind_W }: RowsProps) {
  return (
    <ul class="flow-rows">
      {rows.map((row) => (
        <li key={row.name} class={row.name === 'measured' ? 'measured' : ''} data-row={row.name}>
          <span class="flow-name">{page.say.value.flow.row[row.name]}</span>
          <Bar row={row} whole_W={whole_W} />
          <Numbers page={page} row={row} wind_W={wind_W} />
        </li>
      ))}
    </ul>
  );
}

function Bar({ row: { from_W, to_W, band, isLeft }, whole_W }: { row: FlowRow; whole_W: number }) {
  const x = (power_W: number): number => (LONG * Math.max(power_W, 0)) / whole_W;
  return (
    <svg class="bar" viewBox={`0 0 ${LONG} 20`} preserveAspectRatio="none" aria-hidden="true">
      <rect
        class={isLeft ? 'kept' : 'lost'}
        x={x(from_W)}
        width={Math.max(x(to_W) - x(from_W), 1)}
        y="2"
        height="16"
      />
      {isLeft && band !== null && to_W < whole_W && <path class="reach" d={`M${x(band.low_W)} 10H${x(band.high_W)}`} />}
    </svg>
  );
}

function Numbers({ page, row, wind_W }: { page: WhyPageState; row: FlowRow; wind_W: number }) {
  const words = page.words.value;
  const { model, measured, flow } = page.say.value;
  const value_W = row.to_W - row.from_W;
  const prefix = prefixFor(Math.max(value_W, 1e-6));
  const power = (power_W: number): string => powerText(power_W, prefix, words);
  const percent = `${roughText((100 * value_W) / wind_W, words)}${UNIT_SPACE}%`;
  return (
    <span class="flow-numbers">
      <b>{power(value_W)}</b>
      {row.name !== 'wind' && <span>{flow.ofWind(percent)}</span>}
      {row.band !== null && (
        <span class="band soft">{flow.band(power(row.band.low_W), power(row.band.high_W))}</span>
      )}
      <span class="kind soft">{row.name === 'measured' ? measured : model}</span>
    </span>
  );
}
