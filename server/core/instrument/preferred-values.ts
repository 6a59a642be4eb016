/**
 * The values that resistors are made in: E12 and E24 of IEC 60063, twelve and twenty-four a decade,
 * and the parts among them that make a wanted range.
 */
import { SOURCE_LIMIT_OHM, type Converter } from './converter.ts';
import { dividerChannel, pinSourceResistance_Ohm, type Divider } from './divider.ts';

export type Series = 'E12' | 'E24';

/** Two digits each, IEC 60063:2015. */
export const PREFERRED: Readonly<Record<Series, readonly number[]>> = {
  E12: [10, 12, 15, 18, 22, 27, 33, 39, 47, 56, 68, 82],
  E24: [
    10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91,
  ],
};

/** Every value of the series between two limits (both included), rising. */
export function preferredBetween(series: Series, least: number, most: number): readonly number[] {
  const firstDecade = Math.floor(Math.log10(least)) - 2;
  const lastDecade = Math.ceil(Math.log10(most));
  const values: number[] = [];
  for (let decade = firstDecade; decade <= lastDecade; decade++) {
    // Written and read again, so that 0.47 is the nearest double to 0.47.
    for (const digits of PREFERRED[series]) values.push(Number(`${digits}e${decade}`));
  }
  return values.filter((value) => value >= least && value <= most);
}

/** The largest value of the series that does not exceed this one. @param value above 0 */
export function preferredAtMost(series: Series, value: number): number {
  // Two neighbours of the series differ by less than a quarter.
  return preferredBetween(series, value / 1.3, value).at(-1) ?? value;
}

/**
 * The upper resistor is what protects the pin. With at least this, a generator the wrong way round
 * pushes no more than 3 mA through the clamping diode at 30 V.
 */
const UPPER_LEAST_OHM = 10_000;
const UPPER_MOST_OHM = 100_000;
const LOWER_LEAST_OHM = 1_000;
const LOWER_MOST_OHM = 100_000;

/** Ranges this close are as good as equal: the resistors' tolerance is of that size. */
const AS_GOOD = 1.03;

/**
 * Two preferred values that make a divider with about the smallest range that holds the wanted one,
 * low enough for the converter's input; of ranges as good, the one with the smallest resistors.
 * @param wanted_V from above 0 to 30 V
 */
export function preferredDivider(
  series: Series,
  wanted_V: number,
  converter: Converter,
): Pick<Divider, 'upper_Ohm' | 'lower_Ohm'> | null {
  const candidates = preferredBetween(series, UPPER_LEAST_OHM, UPPER_MOST_OHM).flatMap(
    (upper_Ohm) =>
      preferredBetween(series, LOWER_LEAST_OHM, LOWER_MOST_OHM).map((lower_Ohm) =>
        rated({ upper_Ohm, upperTolerance: 0, lower_Ohm, lowerTolerance: 0, converter }),
      ),
  );
  const fitting = candidates.filter(
    ({ range_V, source_Ohm }) => range_V >= wanted_V && source_Ohm <= SOURCE_LIMIT_OHM,
  );
  const most_V = Math.min(...fitting.map(({ range_V }) => range_V)) * AS_GOOD;
  const [best] = fitting
    .filter(({ range_V }) => range_V <= most_V)
    .sort((a, b) => a.total_Ohm - b.total_Ohm);
  if (best === undefined) return null;
  const { upper_Ohm, lower_Ohm } = best.divider;
  return { upper_Ohm, lower_Ohm };
}

function rated(divider: Divider) {
  return {
    divider,
    range_V: dividerChannel(divider).range,
    source_Ohm: pinSourceResistance_Ohm(divider),
    total_Ohm: divider.upper_Ohm + divider.lower_Ohm,
  };
}
