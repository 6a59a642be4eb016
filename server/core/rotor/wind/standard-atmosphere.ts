/**
 * Pressure at an altitude, by the International Standard Atmosphere (ISO 2533:1975): 15 °C and
 * 101325 Pa at sea level, 6.5 K colder for each kilometre. At 1000 m it is 89874.56 Pa.
 */
const SEA_LEVEL = { temperature_K: 288.15, pressure_Pa: 101_325 } as const;
const LAPSE_Kpm = 0.0065;
/** g·M/(R·lapse), with R/M = 287.05287 J/(kg·K) of the standard. */
const EXPONENT = 9.80665 / (287.05287 * LAPSE_Kpm);

/** Holds up to 11 km, where the air gets no colder any more. */
export function standardPressure_Pa(altitude_m: number): number {
  const share = 1 - (LAPSE_Kpm * altitude_m) / SEA_LEVEL.temperature_K;
  return SEA_LEVEL.pressure_Pa * share ** EXPONENT;
}

export function standardTemperature_degC(altitude_m: number): number {
  return SEA_LEVEL.temperature_K - LAPSE_Kpm * altitude_m - 273.15;
}
