/**
 * Air density against CIPM-2007 (Picard, Davis, Gläser, Fujii, Metrologia 45 (2008) 149; constants
 * from the article, values by an independent program), a public moist-air package, public
 * implementations of IEC 61400-12-1, and the table of ISO 2533.
 */
import { describe, expect, it } from 'vitest';
import { airDensity } from '#core/rotor/wind/air-density.ts';
import { cipmDensity_kgpm3, compressibility, saturationPressure_Pa } from '#core/rotor/wind/cipm-2007.ts';
import { iecDensity_kgpm3 } from '#core/rotor/wind/iec-density.ts';
import { standardPressure_Pa, standardTemperature_degC } from '#core/rotor/wind/standard-atmosphere.ts';

const air = (temperature_degC: number, pressure_Pa: number, relativeHumidity: number) => {
  return { temperature_degC, pressure_Pa, relativeHumidity };
};

describe('CIPM-2007', () => {
  it.each([
    // °C, Pa, humidity; saturation pressure Pa, Z, density, density by IEC
    [20, 101_325, 0.5, 2339.163, 0.9996148, 1.199314, 1.19902],
    [20, 101_325, 0, 2339.163, 0.9996431, 1.204557, 1.20412],
    [15, 101_325, 0, 1705.669, 0.9995922, 1.225521, 1.22501],
    [20, 75_000, 0.5, 2339.163, 0.9997046, 0.886277, 0.88618],
    [25, 101_325, 0.5, 3169.757, 0.9996508, 1.177315, 1.17705],
  ])('%f °C, %f Pa, humidity %f', (t, p, h, saturation_Pa, z, cipm, iec) => {
    expect(saturationPressure_Pa(t)).toBeCloseTo(saturation_Pa, 3);
    expect(compressibility(air(t, p, h))).toBeCloseTo(z, 7);
    expect(cipmDensity_kgpm3(air(t, p, h))).toBeCloseTo(cipm, 6);
    expect(iecDensity_kgpm3(air(t, p, h))).toBeCloseTo(iec, 5);
  });

  it.each([
    // The package has older constants.
    [0, 1.2044777],
    [0.7, 1.1971436],
  ])('a moist-air package at 20 °C, 101325 Pa, humidity %f: to a part in ten thousand', (h, density) => {
    expect(Math.abs(cipmDensity_kgpm3(air(20, 101_325, h)) / density - 1)).toBeLessThan(1e-4);
  });
});

describe('IEC 61400-12-1, humidity 0.5', () => {
  it.each([
    [280, 90_000, 1.11744],
    [285, 95_000, 1.158104],
    [290, 100_000, 1.197057],
    [295, 105_000, 1.234271],
  ])('%f K, %f Pa', (temperature_K, pressure_Pa, density) => {
    expect(iecDensity_kgpm3(air(temperature_K - 273.15, pressure_Pa, 0.5))).toBeCloseTo(density, 6);
  });
});

describe('International Standard Atmosphere (ISO 2533)', () => {
  it.each([
    [0, 101_325, 1.225],
    [500, 95_460.84, 1.16727],
    [1000, 89_874.56, 1.11164],
    [1500, 84_555.99, 1.05807],
    [2000, 79_495.2, 1.00649],
  ])('%f m', (altitude_m, pressure_Pa, density) => {
    expect(standardPressure_Pa(altitude_m)).toBeCloseTo(pressure_Pa, 2);
    const ideal = pressure_Pa / (287.05287 * (standardTemperature_degC(altitude_m) + 273.15));
    expect(ideal).toBeCloseTo(density, 5);
    // The standard air is dry and ideal: the formula for real air agrees to half a part in a thousand.
    const { density_kgpm3 } = airDensity(air(standardTemperature_degC(altitude_m), pressure_Pa, 0));
    expect(Math.abs(density_kgpm3 / density - 1)).toBeLessThan(5e-4);
  });
});

describe('airDensity', () => {
  const EXACT = { temperature_degC: 0, pressure_Pa: 0, relativeHumidity: 0 };

  it('says which formula, and changes it where CIPM-2007 ends: 15 to 27 °C, 600 to 1100 hPa', () => {
    const methods = [[15, 60_000], [27, 110_000], [14.9, 101_325], [27.1, 101_325], [20, 59_900]].map(
      ([t = 0, p = 0]) => airDensity(air(t, p, 0.5)).method,
    );
    const IEC = 'IEC 61400-12-1';
    expect(methods).toEqual(['CIPM-2007', 'CIPM-2007', IEC, IEC, IEC]);
  });

  it('exact inputs leave the formula: 22 parts in a million (from memory)', () => {
    const { density_kgpm3, standardUncertainty_kgpm3 } = airDensity(air(20, 101_325, 0.5), EXACT);
    expect(standardUncertainty_kgpm3 / density_kgpm3).toBeCloseTo(22e-6, 9);
  });

  it.each([
    // Dry air goes with p/T: a kelvin in 293.15, a pascal in 101325; humidity by the table above.
    ['temperature_degC', 1, 1 / 293.15, 0.02],
    ['pressure_Pa', 100, 100 / 101_325, 0.001],
    ['relativeHumidity', 0.1, (0.1 * (1.204557 - 1.199314)) / 0.5 / 1.2, 0.01],
  ] as const)('%s that is known to %f only', (name, u, relative, tolerance) => {
    const { density_kgpm3, standardUncertainty_kgpm3 } = airDensity(air(20, 101_325, 0), {
      ...EXACT,
      [name]: u,
    });
    expect(Math.abs(standardUncertainty_kgpm3 / density_kgpm3 / relative - 1)).toBeLessThan(tolerance);
  });

  it.each([
    // °C and vapour pressure over water, Pa, of steam tables (from memory)
    [0, 611.3], [10, 1228.1], [35, 5629], [45, 9595], [60, 19_946],
  ])('outside the range: damp air at %f °C with the vapour of steam tables', (t, vapour_Pa) => {
    const found = airDensity(air(t, 101_325, 1), EXACT);
    const twoGases = (101_325 - 0.37802 * vapour_Pa) / (287.05 * (t + 273.15));
    expect(Math.abs(found.density_kgpm3 - twoGases)).toBeLessThan(2 * found.standardUncertainty_kgpm3);
  });
});
