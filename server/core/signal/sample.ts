/**
 * A sample: one instant's readings in SI units after calibration. `null` is a missing reading
 * (the board said `nan`, the field was empty, or the channel does not exist); it is never zero.
 */
export interface Sample {
  /** Stream time: seconds since the recording began. Strictly increasing within a recording. */
  readonly time_s: number;
  readonly voltage_V: number | null;
  readonly current_A: number | null;
  readonly windSpeed_mps: number | null;
  readonly rotorSpeed_radps: number | null;
}

/** The channels that a sample carries. */
export const CHANNELS = ['voltage_V', 'current_A', 'windSpeed_mps', 'rotorSpeed_radps'] as const;
export type Channel = (typeof CHANNELS)[number];

/** What a plateau has a mean of: the channels, and power as the mean of the samples' products. */
export const QUANTITIES = ['voltage_V', 'current_A', 'power_W', 'windSpeed_mps', 'rotorSpeed_radps'] as const;
export type Quantity = (typeof QUANTITIES)[number];

/** Power of one sample from simultaneous voltage and current; missing when either is missing. */
export function samplePower_W(sample: Sample): number | null {
  return sample.voltage_V === null || sample.current_A === null
    ? null
    : sample.voltage_V * sample.current_A;
}
