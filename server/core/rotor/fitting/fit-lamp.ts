/**
 * How a lamp's current follows its voltage, I = I₁ (V / V₁)ⁿ, from its own readings: a straight
 * line through their logarithms, since meters err by a share of the reading. A tungsten lamp has n
 * near 0.55 (Fink and Beaty, Standard Handbook for Electrical Engineers, 11th ed., p. 22-8), and
 * near 0 V none: it is cold there.
 */
import type { Load } from '../circuit.ts';
import { asNormal, fitColumns, type Fitted, type FittedColumns } from './fitted.ts';
import type { LoadStep } from './fit-generator.ts';

export interface LampFit {
  /** n */
  readonly currentExponent: Fitted;
  /** For the prediction, referred to the highest voltage read. */
  readonly load: Extract<Load, { kind: 'lamp' }>;
  /** Of the current, as a share, where it is known least between the readings; null: not known. */
  readonly relativeUncertainty: number | null;
  /** Lowest voltage that was used. */
  readonly lowest_V: number;
  /** Readings that were too near 0 V. */
  readonly leftOut: number;
  currentAt_A(voltage_V: number): number;
}

/** Below this share of the highest voltage a filament is too cold for the power law. */
const COLDEST_SHARE = 0.1;
/** The resistance of a filament rises with the voltage, and by less than the voltage itself. */
const RESISTANCE_EXPONENTS = { low: 0, high: 0.9 } as const;

/** Null where fewer than two different voltages remain. */
export function fitLamp(readings: readonly LoadStep[]): LampFit | null {
  const highest_V = Math.max(0, ...readings.map(({ voltage_V }) => voltage_V));
  const hot = readings.filter(
    ({ voltage_V, current_A }) => voltage_V > COLDEST_SHARE * highest_V && current_A > 0,
  );
  const law = fitPowerLaw(hot.map(({ voltage_V, current_A }) => ({ x: voltage_V / highest_V, y: current_A })));
  if (law === null) return null;
  const { factor, exponent, line } = law;
  const lowest_V = Math.min(...hot.map(({ voltage_V }) => voltage_V));
  const ends = [0, Math.log(lowest_V / highest_V)].map((x) => asNormal(line.sum([1, x])));
  const { low, high } = RESISTANCE_EXPONENTS;
  const load = {
    kind: 'lamp',
    ratedVoltage_V: highest_V,
    ratedCurrent_A: factor,
    resistanceExponent: Math.min(Math.max(1 - exponent.value, low), high),
  } as const;
  return {
    currentExponent: exponent,
    load,
    relativeUncertainty: ends.includes(null) ? null : Math.max(...ends.map(Number)),
    lowest_V,
    leftOut: readings.length - hot.length,
    currentAt_A: (voltage_V) => factor * (voltage_V / highest_V) ** exponent.value,
  };
}

export interface PowerLaw {
  readonly factor: number;
  readonly exponent: Fitted;
  /** ln y = ln factor + exponent · ln x */
  readonly line: FittedColumns;
}

/** y = factor · x^exponent, by least squares on the logarithms; x and y above 0. */
export function fitPowerLaw(
  points: readonly { readonly x: number; readonly y: number }[],
): PowerLaw | null {
  const columns = [points.map(() => 1), points.map(({ x }) => Math.log(x))];
  const line = fitColumns(columns, points.map(({ y }) => Math.log(y)));
  const [logFactor, exponent] = line.fitted;
  if (line.rank < 2 || !logFactor || !exponent) return null;
  return { factor: Math.exp(logFactor.value), exponent, line };
}
