/**
 * What a bench-top rig's readings can be at all, in SI. Wide on purpose: a check not of the rig but
 * of the line; a value outside is damage or a wrong unit. Common practice, no source. A sensor's
 * zero may be off a little, so wind may read slightly below nothing.
 */
import type { Channel } from '../signal/sample.ts';

interface Limits {
  readonly lowest: number;
  readonly highest: number;
}

export const LIMITS: Readonly<Record<Channel, Limits>> = {
  voltage_V: { lowest: -1000, highest: 1000 },
  current_A: { lowest: -100, highest: 100 },
  // The strongest gust on record is 113 m/s (WMO archive of extremes; from memory).
  windSpeed_mps: { lowest: -5, highest: 113 },
  rotorSpeed_radps: { lowest: -10_000, highest: 10_000 },
};

/**
 * A converter tells at least so many steps apart. A channel of which so few counts would be more
 * than its quantity can have was announced with a wrong scale or unit. Common practice, no source.
 */
export const FEWEST_COUNTS = 100;
