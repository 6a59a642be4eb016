/**
 * Trials put right afterwards: a divider, a shunt or a unit was not what the calibration took it
 * for. What was measured stays beside what it is corrected to, so that it can be taken back.
 */
import { z } from 'zod';
import { MeasuredValueSchema, type MeasuredValue } from '../metrology/measured-value.ts';

export const CORRECTABLE = ['voltage_V', 'current_A', 'windSpeed_mps'] as const;
export type Correctable = (typeof CORRECTABLE)[number];

const KnownToSchema = z.strictObject({
  /** Of the gain, as a share of it; or of the offset, in the quantity's SI unit. */
  of: z.enum(['gain', 'offset']),
  standardUncertainty: z.number().positive().max(1e6),
  /** Rectangular where limits were given: they are √3 standard uncertainties. */
  distribution: z.enum(['rectangular', 'normal']),
});

/** What a reading is multiplied by, then what is added to it, in the quantity's SI unit. */
export const LineSchema = z.strictObject({
  gain: z
    .number()
    .min(-1e6)
    .max(1e6)
    .refine((gain) => gain !== 0, 'a gain of 0 would erase every reading'),
  offset: z.number().min(-1e6).max(1e6),
  /** Missing: nobody has said how well it is known. */
  knownTo: KnownToSchema.optional(),
});
export type Line = z.infer<typeof LineSchema>;
export const AS_MEASURED: Line = { gain: 1, offset: 0 };

const ReadingsSchema = z.object({
  voltage_V: MeasuredValueSchema.nullable(),
  current_A: MeasuredValueSchema.nullable(),
  power_W: MeasuredValueSchema.nullable(),
  windSpeed_mps: MeasuredValueSchema.nullable(),
});
/** What a correction changes of a trial. */
export type Readings = z.infer<typeof ReadingsSchema>;

export const CorrectionSchema = z.object({
  /** From what was measured, not from an earlier correction. */
  by: z.partialRecord(z.enum(CORRECTABLE), LineSchema),
  measured: ReadingsSchema,
});
export type Correction = z.infer<typeof CorrectionSchema>;

type Corrected = Readings & { readonly correction: Correction | null };

/** What the samples said, whatever it was corrected to. */
export function measuredOf(trial: Corrected): Readings {
  if (trial.correction !== null) return trial.correction.measured;
  const { voltage_V, current_A, power_W, windSpeed_mps } = trial;
  return { voltage_V, current_A, power_W, windSpeed_mps };
}

/** Whether this line can be applied: without voltage or current an offset in power is not known. */
export function canCorrect(
  measured: Readings,
  quantity: Correctable,
  { offset }: Pick<Line, 'offset'>,
): boolean {
  if (quantity === 'windSpeed_mps') return measured.windSpeed_mps !== null;
  const { voltage_V, current_A, power_W } = measured;
  if (measured[quantity] === null && (power_W === null || offset !== 0)) return false;
  return offset === 0 || power_W === null || (voltage_V !== null && current_A !== null);
}

/** A trial's readings by these corrections, which replace those before; with none, as measured. */
export function correctedBy(measured: Readings, by: Correction['by']): Corrected {
  const wanted = Object.entries(by).filter(
    ([, { gain, offset, knownTo }]) => gain !== 1 || offset !== 0 || knownTo !== undefined,
  );
  if (wanted.length === 0) return { ...measured, correction: null };
  const { voltage_V, current_A, windSpeed_mps } = measured;
  return {
    voltage_V: alongLine(voltage_V, by.voltage_V),
    current_A: alongLine(current_A, by.current_A),
    power_W: correctedPower(measured, by),
    windSpeed_mps: alongLine(windSpeed_mps, by.windSpeed_mps),
    correction: { by: Object.fromEntries(wanted), measured },
  };
}

function alongLine(measured: MeasuredValue | null, line: Line = AS_MEASURED): MeasuredValue | null {
  if (measured === null) return null;
  const { value, standardUncertainty: u, degreesOfFreedom } = measured;
  const { gain, offset } = line;
  return {
    value: gain * value + offset,
    standardUncertainty: u === null ? null : Math.abs(gain) * u,
    degreesOfFreedom,
  };
}

/**
 * The mean of products (g·v + o)(h·i + p) is gh·P + gp·V + ho·I + op, exactly. Its uncertainty
 * follows from those of V and I with their covariance (JCGM 100:2008 (GUM), 5.2.2), which the
 * uncertainty of the measured power tells: u²(P) = I²u²(V) + V²u²(I) + 2VI·u(V, I).
 */
function correctedPower(
  { voltage_V, current_A, power_W }: Readings,
  by: Correction['by'],
): MeasuredValue | null {
  if (power_W === null) return null;
  const { gain: g, offset: o } = by.voltage_V ?? AS_MEASURED;
  const { gain: h, offset: p } = by.current_A ?? AS_MEASURED;
  if (voltage_V === null || current_A === null || (o === 0 && p === 0)) {
    return alongLine(power_W, { gain: g * h, offset: 0 });
  }
  const [V, I] = [voltage_V.value, current_A.value];
  const { degreesOfFreedom } = power_W;
  const value = g * h * power_W.value + g * p * V + h * o * I + o * p;
  const spread = spreadOf(voltage_V, current_A, power_W);
  if (spread === null) return { value, standardUncertainty: null, degreesOfFreedom };
  const { u_V, u_I } = spread;
  const [c_V, c_I] = [g * (h * I + p), h * (g * V + o)];
  const square = (c_V * u_V) ** 2 + (c_I * u_I) ** 2 + 2 * c_V * c_I * covarianceOf(spread);
  return { value, standardUncertainty: Math.sqrt(Math.max(square, 0)), degreesOfFreedom };
}

interface Spread {
  readonly V: number;
  readonly I: number;
  readonly u_V: number;
  readonly u_I: number;
  readonly u_P: number;
}

function spreadOf(v: MeasuredValue, i: MeasuredValue, power: MeasuredValue): Spread | null {
  const [u_V, u_I, u_P] = [v.standardUncertainty, i.standardUncertainty, power.standardUncertainty];
  if (u_V === null || u_I === null || u_P === null) return null;
  return { V: v.value, I: i.value, u_V, u_I, u_P };
}

/** Of voltage and current, at most as large as their correlation may be; 0 where nothing tells. */
function covarianceOf({ V, I, u_V, u_I, u_P }: Spread): number {
  if (V === 0 || I === 0) return 0;
  const covariance = (u_P ** 2 - (I * u_V) ** 2 - (V * u_I) ** 2) / (2 * V * I);
  const most = u_V * u_I;
  return Math.min(Math.max(covariance, -most), most);
}
