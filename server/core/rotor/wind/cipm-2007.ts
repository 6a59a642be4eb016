/**
 * Density of moist air by the formula CIPM-2007 (A. Picard, R. S. Davis, M. Gläser, K. Fujii,
 * Metrologia 45 (2008) 149), for 400 ppm of carbon dioxide. For 20 °C, 101325 Pa and half
 * saturated air it gives 1.199314 kg/m³.
 */
import type { Air } from './air.ts';

const RANGE = { low_degC: 15, high_degC: 27, low_Pa: 60_000, high_Pa: 110_000 };
/** Relative standard uncertainty of the formula within its range (from memory). */
export const CIPM_RELATIVE_UNCERTAINTY = 22e-6;

/** J/(mol·K) */
const GAS_CONSTANT = 8.314472;
/** kg/mol */
const MOLAR_MASS = { dryAir: 28.96546e-3, water: 18.01528e-3 } as const;

/** Whether the formula holds; outside, another one is to be taken. */
export function isInCipmRange({ temperature_degC, pressure_Pa }: Air): boolean {
  const { low_degC, high_degC, low_Pa, high_Pa } = RANGE;
  const isTemperate = temperature_degC >= low_degC && temperature_degC <= high_degC;
  return isTemperate && pressure_Pa >= low_Pa && pressure_Pa <= high_Pa;
}

/** kg/m³; equation 1 of the article. */
export function cipmDensity_kgpm3(air: Air): number {
  const { pressure_Pa: p, temperature_degC } = air;
  const moist = 1 - waterFraction(air) * (1 - MOLAR_MASS.water / MOLAR_MASS.dryAir);
  const T = temperature_degC + 273.15;
  return ((p * MOLAR_MASS.dryAir) / (compressibility(air) * GAS_CONSTANT * T)) * moist;
}

/** Pa over water; appendix A1.1. */
export function saturationPressure_Pa(temperature_degC: number): number {
  const T = temperature_degC + 273.15;
  return Math.exp(1.2378847e-5 * T * T - 1.9121316e-2 * T + 33.93711047 - 6343.1645 / T);
}

/** Mole fraction of water, with the enhancement factor f; appendices A1.2 and A1.3. */
function waterFraction({ temperature_degC: t, pressure_Pa: p, relativeHumidity }: Air): number {
  const f = 1.00062 + 3.14e-8 * p + 5.6e-7 * t * t;
  return (relativeHumidity * f * saturationPressure_Pa(t)) / p;
}

/** Z; appendix A1.4. */
export function compressibility(air: Air): number {
  const t = air.temperature_degC;
  const x = waterFraction(air);
  const pOverT = air.pressure_Pa / (t + 273.15);
  const first =
    1.58123e-6 - 2.9331e-8 * t + 1.1043e-10 * t * t +
    (5.707e-6 - 2.051e-8 * t) * x +
    (1.9898e-4 - 2.376e-6 * t) * x * x;
  return 1 - pOverT * first + pOverT ** 2 * (1.83e-11 - 0.765e-8 * x * x);
}
