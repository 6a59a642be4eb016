/**
 * Which share of the wind's power became power at the load, with the budget of its uncertainty:
 *
 *     C_p = P / (½ρ·πR²·g·(f·v)³)
 *
 * v the anemometer's mean reading, f from its place to the whole rotor (traverse.ts), g the gusts'
 * part in the mean of v³ (mean-cube.ts). The causes do not depend on each other (JCGM 100:2008
 * (GUM), 5.1.2); of the wind's, everything counts three times.
 */
import { z } from 'zod';
import { combine, MOST_DEGREES_OF_FREEDOM } from '../../metrology/combine.ts';
import { coverageFactor } from '../../metrology/coverage.ts';
import { independent, propagate, sharesOf } from '../../metrology/propagate.ts';
import { BETZ_LIMIT, discArea_m2, windPower_W } from './wind-power.ts';

export const COEFFICIENT_CAUSES = [
  'power',
  'air density',
  'rotor radius',
  /** Type A: what the anemometer's readings scatter. */
  'scatter of the wind',
  'anemometer',
  /** How well is known what its readings were corrected by. */
  'correction of the wind',
  'gusts',
  'place of the anemometer',
] as const;
export type CoefficientCause = (typeof COEFFICIENT_CAUSES)[number];

/** An input of the model, SI; anemometer and correction stand for unknown errors, of value 0. */
export interface CoefficientInput {
  readonly value: number;
  readonly standardUncertainty: number;
  readonly distribution: 'rectangular' | 'normal' | 'student';
  /** 1e6 stands for endless. */
  readonly degreesOfFreedom: number;
}
export type CoefficientInputs = Readonly<Record<CoefficientCause, CoefficientInput>>;

/** What is known to be this, within ± limit. */
export function withinLimit(value: number, standardUncertainty: number): CoefficientInput {
  const degreesOfFreedom = MOST_DEGREES_OF_FREEDOM;
  return { value, standardUncertainty, distribution: 'rectangular', degreesOfFreedom };
}

export const CoefficientRowSchema = z.object({
  cause: z.enum(COEFFICIENT_CAUSES),
  /** In the SI unit of the input. */
  value: z.number(),
  standardUncertainty: z.number(),
  distribution: z.enum(['rectangular', 'normal', 'student']),
  degreesOfFreedom: z.number(),
  /** Change of the coefficient for a change of one unit. */
  sensitivity: z.number(),
  /** |sensitivity| · standard uncertainty. */
  contribution: z.number(),
  /** Of the variance. */
  share: z.number(),
});

export const CoefficientSchema = z.object({
  value: z.number(),
  standardUncertainty: z.number(),
  degreesOfFreedom: z.number(),
  /** For 95 %. */
  coverageFactor: z.number(),
  expandedUncertainty: z.number(),
  windPower_W: z.number(),
  /** No rotor can: a unit was mistaken, or the wind is not that of the rotor. */
  isBeyondBetz: z.boolean(),
  /** The largest first. */
  rows: z.array(CoefficientRowSchema).readonly(),
});
export type Coefficient = Readonly<z.infer<typeof CoefficientSchema>>;

/** @param inputs wind and area above 0 */
export function powerCoefficient(inputs: CoefficientInputs): Coefficient {
  const all = COEFFICIENT_CAUSES.map((cause) => inputs[cause]);
  const values = all.map(({ value }) => value);
  const covariance = independent(all.map(({ standardUncertainty }) => standardUncertainty));
  const found = propagate({ values, covariance, model: (drawn) => [coefficientOf(drawn)] });
  const shares = sharesOf(found, covariance);
  const rows = COEFFICIENT_CAUSES.map((cause, i) => {
    const sensitivity = found.sensitivities[0]?.[i] ?? NaN;
    const contribution = Math.abs(sensitivity) * inputs[cause].standardUncertainty;
    return { cause, ...inputs[cause], sensitivity, contribution, share: shares[i] ?? NaN };
  }).filter(({ contribution }) => contribution > 0);
  const value = found.values[0] ?? NaN;
  return {
    value,
    ...expanded(rows),
    windPower_W: windOf(values),
    isBeyondBetz: value > BETZ_LIMIT,
    rows: rows.sort((a, b) => b.contribution - a.contribution),
  };
}

/** @param values in the order of COEFFICIENT_CAUSES */
export function coefficientOf(values: readonly number[]): number {
  return (values[0] ?? NaN) / windOf(values);
}

function windOf(values: readonly number[]): number {
  const [, airDensity_kgpm3 = NaN, radius_m = NaN, ...wind] = values;
  const [reading_mps = NaN, error_mps = NaN, correction_mps = NaN, ...rest] = wind;
  const [gusts = NaN, place = NaN] = rest;
  return windPower_W({
    airDensity_kgpm3,
    area_m2: discArea_m2(radius_m),
    meanCube_m3ps3: gusts * (place * (reading_mps + error_mps + correction_mps)) ** 3,
  });
}

type Row = z.infer<typeof CoefficientRowSchema>;

function expanded(rows: readonly Row[]) {
  const { u: standardUncertainty, degreesOfFreedom } = combine(
    rows.map((row) => ({ u: row.contribution, degreesOfFreedom: row.degreesOfFreedom })),
  );
  const rectangles = rows.filter(({ distribution }) => distribution === 'rectangular');
  const largestRectangle = Math.max(0, ...rectangles.map(({ share }) => share));
  const k = coverageFactor({ largestRectangle, degreesOfFreedom });
  return {
    standardUncertainty,
    degreesOfFreedom,
    coverageFactor: k,
    expandedUncertainty: k * standardUncertainty,
  };
}
