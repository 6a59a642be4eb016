/** What the bars of the power's way from the wind to the load are, and what stands beside them. */
import type { KnownWhy } from '#core/experiment/why/why.ts';
import type { WhyLevel } from '#core/experiment/why/why-level.ts';
import { prefixFor, UNIT_SPACE } from '#core/metrology/format.ts';
import type { Band } from '#core/rotor/power-flow.ts';
import { BETZ_LIMIT } from '#core/rotor/wind/wind-power.ts';
import { powerText } from '../model/budget.ts';
import { roughText } from '../model/why-text.ts';
import type { WhyWords } from '../words/why-words.ts';
import type { WhyPageState } from './state.ts';

export interface FlowRow {
  readonly name: keyof WhyWords['flow']['row'];
  /** Where its bar begins and ends, W. */
  readonly from_W: number;
  readonly to_W: number;
  /** Null where it is not worked out. */
  readonly band: { readonly low_W: number; readonly high_W: number } | null;
  /** What is left, as against what is lost here. */
  readonly isLeft: boolean;
}

export interface FlowPart {
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

interface RowText {
  readonly power: string;
  readonly ofWind: string | null;
  readonly band: string | null;
  readonly kind: string;
}

/** What stands beside a bar. */
export function rowText(page: WhyPageState, row: FlowRow, wind_W: number): RowText {
  const words = page.words.value;
  const { model, measured, flow } = page.say.value;
  const value_W = row.to_W - row.from_W;
  const prefix = prefixFor(Math.max(value_W, 1e-6));
  const power = (power_W: number): string => powerText(power_W, prefix, words);
  const percent = `${roughText((100 * value_W) / wind_W, words)}${UNIT_SPACE}%`;
  return {
    power: power(value_W),
    ofWind: row.name === 'wind' ? null : flow.ofWind(percent),
    band: row.band === null ? null : flow.band(power(row.band.low_W), power(row.band.high_W)),
    kind: row.name === 'measured' ? measured : model,
  };
}
