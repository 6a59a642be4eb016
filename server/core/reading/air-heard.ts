/**
 * What a board says of the air, where it has channels for that. It changes in minutes: it is looked
 * up in the newest line when a trial is logged, and costs nothing at every sample.
 */
import { readFields } from '#protocol/plain-line.ts';
import { conversionOf, quantityNamed, type Conversion } from '#protocol/quantity.ts';
import { FIRST_COUNT_AT } from '#protocol/stillmark-sample.ts';
import { AIR_LIMITS, type HeardAir } from '../rotor/wind/air.ts';
import { NOTHING_ANNOUNCED, type Measured } from './channel-source.ts';
import type { Reader } from './state.ts';

const QUANTITY = {
  temperature_degC: 'temperature',
  pressure_Pa: 'pressure',
  relativeHumidity: 'humidity',
} as const;

/** @param line the newest one with a sample; a value that air can't have is null */
export function airHeard(reader: Reader, line: string): HeardAir {
  const of = (name: keyof HeardAir): number | null => {
    const found = measuredAir(reader, QUANTITY[name]);
    if (found === null) return null;
    const { announced, conversion } = found;
    const number = numberAt(reader, line, found.at);
    const own = announced.gain * (announced.scale * (number - announced.zero)) + announced.offset;
    const value = (own * conversion.multiplier) / conversion.divisor;
    const { low, high } = AIR_LIMITS[name];
    return value >= low && value <= high ? value : null;
  };
  return {
    temperature_degC: of('temperature_degC'),
    pressure_Pa: of('pressure_Pa'),
    relativeHumidity: of('relativeHumidity'),
  };
}

type AirSource = Pick<Measured, 'at' | 'announced' | 'conversion'>;

/** The first column or channel of that quantity. */
function measuredAir({ layout, columns, facts }: Reader, quantity: string): AirSource | null {
  if (layout?.grammar === 'stillmark') {
    const channel = facts.announcement?.channels.find((one) => one.quantity === quantity);
    const conversion = channel && announcedConversion(channel.quantity, channel.unit);
    if (channel === undefined || !conversion) return null;
    return { at: FIRST_COUNT_AT + channel.number - 1, announced: channel, conversion };
  }
  const at = columns.findIndex((one) => one.role === 'quantity' && one.quantity === quantity);
  const column = columns[at];
  if (column?.role !== 'quantity') return null;
  return { at, announced: NOTHING_ANNOUNCED, conversion: column.conversion };
}

function announcedConversion(name: string, unit: string): Conversion | null {
  const quantity = quantityNamed(name);
  return quantity === null ? null : conversionOf(quantity, unit);
}

/** NaN where there is none. */
function numberAt({ layout }: Reader, line: string, at: number): number {
  if (layout === null) return NaN;
  if (layout.grammar === 'stillmark') return layout.values[at] ?? NaN;
  // The other columns' numbers stay what they are.
  const wanted = new Uint8Array(layout.fieldCount);
  const values = new Float64Array(layout.fieldCount);
  wanted[at] = 1;
  const count = layout.separator === null ? 0 : readFields(line, layout.separator, wanted, values);
  return count === layout.fieldCount ? (values[at] ?? NaN) : NaN;
}
