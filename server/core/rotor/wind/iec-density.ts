/**
 * Density of moist air by IEC 61400-12-1 (from public implementations): two ideal gases that fill
 * the same room. For 290 K, 100000 Pa and half saturated air it gives 1.197057 kg/m³.
 */
import type { Air } from './air.ts';

/** J/(kg·K), of dry air and of water vapour. */
const DRY_AIR = 287.05;
const WATER_VAPOUR = 461.5;

/** kg/m³ */
export function iecDensity_kgpm3({ temperature_degC, pressure_Pa, relativeHumidity }: Air): number {
  const T = temperature_degC + 273.15;
  const vapour_Pa = 0.0000205 * Math.exp(0.0631846 * T);
  const lighter = relativeHumidity * vapour_Pa * (1 / DRY_AIR - 1 / WATER_VAPOUR);
  return (pressure_Pa / DRY_AIR - lighter) / T;
}
