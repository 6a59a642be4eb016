/**
 * How a lamp's current follows its voltage, I = I₁ (V / V₁)ⁿ, from its own readings: a straight
 * line through their logarithms, since meters err by a share of the reading. A tungsten lamp has n
 * near 0.55 (Fink and Beaty, Standard Handbook for Electrical Engineers, 11th ed., p. 22-8), and
 * near 0 V none: it is cold there.
 */
import type { Load } from '../circuit.ts';
import { fitColumns, type Fitted } from './fitted.ts';
import type { LoadStep } from './fit-generator.ts';

export interface LampFit {
  /** n */
  readonly currentExponent: Fitted;
  /** For the prediction, referred to the highest voltage read. */
  readonly load: Extract<Load, { kind: 'lamp' }>;
  /** Readings that were too near 0 V. */
  readonly leftOut: number;
}

/** Below this share of the highest voltage a filament is too cold for the power law. */
const COLDEST_SHARE = 0.1;

/** Null where fewer than two different voltages remain. */
export function fitLamp(readings: readonly LoadStep[]): LampFit | null {
  const highest_V = Math.max(0, ...readings.map(({ voltage_V }) => voltage_V));
  const hot = readings.filter(
    ({ voltage_V, current_A }) => voltage_V > COLDEST_SHARE * highest_V && current_A > 0,
  );
  const law = fitPowerLaw(hot.map(({ voltage_V, current_A }) => ({ x: voltage_V / highest_V, y: current_A })));
  if (law === null) return null;
  const load = {
    kind: 'lamp',
    ratedVoltage_V: highest_V,
    ratedCurrent_A: law.factor,
    resistanceExponent: 1 - law.exponent.value,
  } as const;
  return { currentExponent: law.exponent, load, leftOut: readings.length - hot.length };
}

/** y = factor · x^exponent, by least squares on the logarithms; x and y above 0. */
export function fitPowerLaw(
  points: readonly { readonly x: number; readonly y: number }[],
): { readonly factor: number; readonly exponent: Fitted } | null {
  const columns = [points.map(() => 1), points.map(({ x }) => Math.log(x))];
  const { rank, fitted } = fitColumns(columns, points.map(({ y }) => Math.log(y)));
  const [logFactor, exponent] = fitted;
  if (rank < 2 || !logFactor || !exponent) return null;
  return { factor: Math.exp(logFactor.value), exponent };
}
