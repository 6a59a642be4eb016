/**
 * What boards measure, and in which units they may say it. One table for the columns of plain lines
 * and the channels of Stillmark lines.
 */

/** SI value = value · multiplier / divisor; a division where that rounds better. */
export interface Conversion {
  readonly multiplier: number;
  readonly divisor: number;
}

/**
 * Pulses are a counter that only grows (and wraps). `pulses` alone leaves to the configuration
 * whether they count the anemometer's turns or the rotor's.
 */
export type QuantityName =
  | 'voltage'
  | 'current'
  | 'windSpeed'
  | 'rotorSpeed'
  | 'pulses'
  | 'windPulses'
  | 'rotorPulses'
  | 'temperature'
  | 'pressure'
  | 'humidity';

const AS_IT_IS: Conversion = { multiplier: 1, divisor: 1 };
const MILLI: Conversion = { multiplier: 1, divisor: 1e3 };
const MICRO: Conversion = { multiplier: 1, divisor: 1e6 };
const COUNTS = { count: AS_IT_IS };

/** Units by quantity, spelled exactly so: `mV` and `MV` are far apart. */
const UNITS: Readonly<Record<QuantityName, Readonly<Record<string, Conversion>>>> = {
  voltage: { V: AS_IT_IS, mV: MILLI },
  current: { A: AS_IT_IS, mA: MILLI, uA: MICRO },
  windSpeed: {
    mps: AS_IT_IS,
    kmph: { multiplier: 1000, divisor: 3600 },
    // The international mile is 1609.344 m exactly (NIST SP 811:2008, appendix B.8).
    mph: { multiplier: 1609.344, divisor: 3600 },
  },
  rotorSpeed: { radps: AS_IT_IS, rpm: { multiplier: 2 * Math.PI, divisor: 60 } },
  pulses: COUNTS,
  windPulses: COUNTS,
  rotorPulses: COUNTS,
  // Not a sample's channels yet; their lines are kept, so they can be read back later.
  temperature: { degC: AS_IT_IS },
  pressure: { Pa: AS_IT_IS, hPa: { multiplier: 100, divisor: 1 } },
  humidity: { pct: { multiplier: 1, divisor: 100 } },
};

/** Spellings of a quantity in lower case without underscores. */
const NAMES: Readonly<Record<string, QuantityName>> = {
  voltage: 'voltage',
  current: 'current',
  wind: 'windSpeed',
  windspeed: 'windSpeed',
  rotor: 'rotorSpeed',
  rotorspeed: 'rotorSpeed',
  pulses: 'pulses',
  windpulses: 'windPulses',
  rotorpulses: 'rotorPulses',
  temperature: 'temperature',
  pressure: 'pressure',
  humidity: 'humidity',
};

/** The quantity that a name stands for: `wind`, `windSpeed` and `wind_speed` are one. */
export function quantityNamed(name: string): QuantityName | null {
  const key = name.replaceAll('_', '').toLowerCase();
  return Object.hasOwn(NAMES, key) ? (NAMES[key] ?? null) : null;
}

/** How to turn a value in `unit` into SI; null when the quantity can't be said in that unit. */
export function conversionOf(quantity: QuantityName, unit: string): Conversion | null {
  const units = UNITS[quantity];
  return Object.hasOwn(units, unit) ? (units[unit] ?? null) : null;
}

/** The names that are known, in one spelling each. */
export function quantityNames(): readonly string[] {
  return Object.keys(UNITS);
}

export function unitsOf(quantity: QuantityName): readonly string[] {
  return Object.keys(UNITS[quantity]);
}
