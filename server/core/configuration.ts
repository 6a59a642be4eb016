/** What the operator can set about the board and reading it. Defaults suit a board with a header. */
import { z } from 'zod';
import { LineSchema, type Correctable } from './experiment/correction.ts';
import { InstrumentSchema, UNKNOWN_INSTRUMENT } from './instrument/instrument.ts';

/** value = gain · indication + offset, both in the channel's SI unit. */
export const CalibrationSchema = z.object({
  gain: z.number().refine((gain) => gain !== 0, 'a gain of 0 would erase every reading').default(1),
  offset: z.number().default(0),
  /** The newest corrections that it is made of, where it is; the first first. */
  corrections: z.array(LineSchema).readonly().optional(),
});
export type Calibration = z.infer<typeof CalibrationSchema>;

/** Faster than the fastest board, slower than any that settling could be seen with. */
export const SampleRateSchema = z.number().min(1).max(10_000);

export const ConfigurationSchema = z.object({
  /**
   * Column names for a board that sends no header, for instance
   * ["time_ms","voltage_V","current_mA"], "" for one that is not used; none: the header says.
   */
  columns: z.array(z.string()).max(32).default([]),
  /** Calibration on top of what the board itself has applied. */
  calibration: z
    .object({
      voltage_V: CalibrationSchema.optional(),
      current_A: CalibrationSchema.optional(),
      windSpeed_mps: CalibrationSchema.optional(),
      rotorSpeed_radps: CalibrationSchema.optional(),
    })
    .default({}),
  /** Metres a second of wind for one anemometer pulse a second; null: pulses are not wind. */
  windPerPulseRate_m: z.number().positive().nullable().default(null),
  /** Pulses of the rotor's pick-up for one turn; null: pulses are not rotor speed. */
  pulsesPerTurn: z.number().positive().nullable().default(null),
  /** What a board that lets itself be set is asked for, within its limits; samples a second. */
  sampleRate_Hz: SampleRateSchema.default(100),
  /** What voltage and current are measured with. Nothing is read differently for it. */
  instrument: InstrumentSchema.default(UNKNOWN_INSTRUMENT),
});
export type Configuration = z.infer<typeof ConfigurationSchema>;

/** The same with another calibration of one quantity; null: none. */
export function withCalibration(
  configuration: Configuration,
  quantity: Correctable,
  calibration: Calibration | null,
): Configuration {
  const { [quantity]: _before, ...others } = configuration.calibration;
  const calibrations = calibration === null ? others : { ...others, [quantity]: calibration };
  return { ...configuration, calibration: calibrations };
}

export const DEFAULT_CONFIGURATION: Configuration = ConfigurationSchema.parse({});
