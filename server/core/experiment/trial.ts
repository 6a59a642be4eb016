/** A trial: a recorded plateau. Its life is declared → logged → final, or interrupted. */
import { z } from 'zod';
import { RippleSchema } from '../signal/ripple/ripple.ts';
import { MeasuredValueSchema } from '../metrology/measured-value.ts';
import { WindGustsSchema } from '../signal/wind-gusts.ts';
import { TrialSpeedSchema } from './speed/trial-speed.ts';
import { CORRECTABLE, CorrectionSchema, LineSchema } from './correction.ts';

export const TrialStateSchema = z.enum(['logged', 'final', 'interrupted']);

export const TrialSchema = z.object({
  /** Counts up within a session. */
  id: z.number().int().positive(),
  /** The recording that its times belong to. */
  recordingId: z.number().int().positive(),
  /** 1 for the first commit; each later commit is one more. */
  revision: z.number().int().positive(),
  state: TrialStateSchema,
  /** Whether it lasted the recording length, whatever cut it afterwards. */
  recorded: z.boolean(),
  start_s: z.number(),
  end_s: z.number(),
  declared_s: z.number(),
  /** Arrival time of the input that brought the first revision, recording clock. */
  recorded_s: z.number(),
  sampleCount: z.number().int(),
  rotorStill: z.boolean(),
  /**
   * What its means rest on: a settled plateau; an average over what would not settle; the last
   * seconds, because somebody wanted them; somebody's word that the fan is on; typed readings.
   */
  basis: z.enum(['settled', 'average', 'window', 'said', 'keyed', 'imported']).default('settled'),
  factors: z.record(z.string(), z.union([z.number(), z.string()])),
  runId: z.string().nullable(),
  voltage_V: MeasuredValueSchema.nullable(),
  current_A: MeasuredValueSchema.nullable(),
  power_W: MeasuredValueSchema.nullable(),
  windSpeed_mps: MeasuredValueSchema.nullable(),
  rotorSpeed_radps: MeasuredValueSchema.nullable(),
  /**
   * What the samples say of the wind's gusts, as measured; missing where no wind was read, and in
   * trials that were logged before this was kept.
   */
  windGusts: WindGustsSchema.optional(),
  /** What of its voltage stands out of the noise; null: too few readings, or nothing turned. */
  ripple: RippleSchema.nullable().default(null),
  /** Null in what is stored and on the feed: worked out when trials are asked for. So the next. */
  speed: TrialSpeedSchema.nullable().default(null),
  powerCoefficient: MeasuredValueSchema.nullable(),
  origin: z.enum(['board', 'simulated', 'keyed', 'imported']),
  simulated: z.boolean(),
  struck: z.boolean(),
  strikeReason: z.string().nullable(),
  note: z.string().nullable(),
  /** Put right afterwards: voltage, current, power and wind are not what was measured. */
  correction: CorrectionSchema.nullable().default(null),
  /** Corrections that its readings went through as they came, the first first. */
  readBy: z.partialRecord(z.enum(CORRECTABLE), z.array(LineSchema).readonly()).optional(),
});
export type Trial = z.infer<typeof TrialSchema>;
/** As the pages know it too. */
export type ShownTrial = Omit<Trial, 'recorded_s'>;
