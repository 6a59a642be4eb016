/**
 * How heavy the air is, and how well that is known: CIPM-2007 where it holds, else the formula of
 * IEC 61400-12-1. What the formula itself leaves open is one more input of the propagation.
 */
import { rectangular } from '../../instrument/tolerance.ts';
import { independent, propagate } from '../../metrology/propagate.ts';
import type { Air, AirUncertainty } from './air.ts';
import { CIPM_RELATIVE_UNCERTAINTY, cipmDensity_kgpm3, isInCipmRange } from './cipm-2007.ts';
import { iecDensity_kgpm3 } from './iec-density.ts';

export interface AirDensity {
  readonly density_kgpm3: number;
  readonly method: 'CIPM-2007' | 'IEC 61400-12-1';
  readonly standardUncertainty_kgpm3: number;
}

/**
 * Of a room thermometer (±1 °C), a pocket barometer (±200 Pa) and a room hygrometer (±5 %), as
 * rectangles (common practice, no source).
 */
export const ROOM_INSTRUMENTS: AirUncertainty = {
  temperature_degC: rectangular(1),
  pressure_Pa: rectangular(200),
  relativeHumidity: rectangular(0.05),
};

/**
 * Weather moves the pressure at one place by about 1 % about its standard value (common practice,
 * no source).
 */
export const WEATHER_Pa = 1000;

/** @param u standard uncertainties of what is said of the air */
export function airDensity(air: Air, u: AirUncertainty = ROOM_INSTRUMENTS): AirDensity {
  const formula = isInCipmRange(air) ? CIPM : IEC;
  const { values, standardUncertainties } = propagate({
    values: [air.temperature_degC, air.pressure_Pa, air.relativeHumidity, 1],
    covariance: independent([
      u.temperature_degC,
      u.pressure_Pa,
      u.relativeHumidity,
      formula.relativeUncertainty(air),
    ]),
    model: ([temperature_degC = 0, pressure_Pa = 0, relativeHumidity = 0, correction = 0]) => [
      correction * formula.density_kgpm3({ temperature_degC, pressure_Pa, relativeHumidity }),
    ],
  });
  return {
    density_kgpm3: values[0] ?? NaN,
    method: formula.method,
    standardUncertainty_kgpm3: standardUncertainties[0] ?? NaN,
  };
}

interface Formula {
  readonly method: AirDensity['method'];
  readonly density_kgpm3: (air: Air) => number;
  readonly relativeUncertainty: (air: Air) => number;
}

const CIPM: Formula = {
  method: 'CIPM-2007',
  density_kgpm3: cipmDensity_kgpm3,
  relativeUncertainty: () => CIPM_RELATIVE_UNCERTAINTY,
};

/** The least that two ideal gases differ from air. */
const IDEAL_GAS = 1e-3;

const IEC: Formula = {
  method: 'IEC 61400-12-1',
  density_kgpm3: iecDensity_kgpm3,
  // CIPM-2007, continued beyond its range, knows water vapour better: in hot damp air, by per cents.
  relativeUncertainty: (air) =>
    Math.max(IDEAL_GAS, Math.abs(iecDensity_kgpm3(air) / cipmDensity_kgpm3(air) - 1)),
};
