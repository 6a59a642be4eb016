/**
 * What a bench-top rig's readings can be at all, in SI. Wide on purpose: not a check of the rig, but
 * of the line: a value outside is damage or a wrong unit. Common practice, no source; a sensor's
 * zero may be off a little, so wind and rotor speed may read slightly below nothing.
 */
import type { Channel } from '../signal/sample.ts';

export interface Limits {
  readonly lowest: number;
  readonly highest: number;
}

export const LIMITS: Readonly<Record<Channel, Limits>> = {
  voltage_V: { lowest: -1000, highest: 1000 },
  current_A: { lowest: -100, highest: 100 },
  // The strongest wind ever measured near the ground was 113 m/s (WMO archive of extremes).
  windSpeed_mps: { lowest: -5, highest: 113 },
  rotorSpeed_radps: { lowest: -10_000, highest: 10_000 },
};
