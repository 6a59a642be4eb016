/**
 * What the wind offers and what a rotor can take. Values without a source of their own are the
 * cited formulas, worked out by independent programs (SciPy 1.17); "common practice" has no source.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ANEMOMETERS, anemometerUncertainty_mps, isTurning } from '#core/rotor/wind/anemometer.ts';
import { idealPowerCoefficient } from '#core/rotor/wind/ideal-rotor.ts';
import { gustFactor, meanCube_m3ps3 } from '#core/rotor/wind/mean-cube.ts';
import { equalAreaRadii_m, rotorWind } from '#core/rotor/wind/traverse.ts';
import {
  actuatorDiscCoefficient,
  BETZ_LIMIT,
  discArea_m2,
  windPower_W,
} from '#core/rotor/wind/wind-power.ts';
import { createRandom, normal } from '#core/virtual-rig/random.ts';

describe('Betz', () => {
  it('16/27, the top of 4a(1 − a)² at a = 1/3', () => {
    expect(BETZ_LIMIT).toBeCloseTo(0.592592593, 9);
    expect(actuatorDiscCoefficient(1 / 3)).toBeCloseTo(BETZ_LIMIT, 15);
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1, noNaN: true }), (a) => {
        expect(actuatorDiscCoefficient(a)).toBeLessThanOrEqual(BETZ_LIMIT + 1e-15);
      }),
    );
  });
});

describe('Glauert’s ideal rotor with wake rotation', () => {
  /** Closed form and quadrature agreed to six digits; older printed tables to ±0.005. */
  const TABLE: readonly (readonly [lambda: number, cp: number])[] = [
    [0.5, 0.289394], [1, 0.415496], [1.5, 0.477153], [2, 0.511187], [2.5, 0.531874],
    [3, 0.545398], [4, 0.561487], [5, 0.570387], [7.5, 0.580849], [10, 0.585234],
  ];
  it.each(TABLE)('λ = %f: %f', (lambda, cp) => {
    expect(idealPowerCoefficient(lambda)).toBeCloseTo(cp, 6);
  });

  it('is the integral itself, by Simpson’s rule', () => {
    for (const lambda of [0.05, 0.7, 2.3, 6]) {
      expect(idealPowerCoefficient(lambda)).toBeCloseTo(byQuadrature(lambda), 7);
    }
  });

  it('keeps its digits where the rotor hardly turns', () => {
    for (const lambda of [1e-9, 1e-6, 2e-4, 9.99e-4, 1.001e-3, 2e-3, 5e-3]) {
      expect(idealPowerCoefficient(lambda) / byQuadrature(lambda)).toBeCloseTo(1, 5);
    }
  });

  it('rises with the tip speed ratio from nothing to Betz’s limit, for any of them', () => {
    const ratio = fc.double({ min: 1e-9, max: 1e3, noNaN: true });
    fc.assert(
      fc.property(ratio, ratio, (a, b) => {
        const [low, high] = [idealPowerCoefficient(Math.min(a, b)), idealPowerCoefficient(Math.max(a, b))];
        expect(low).toBeGreaterThan(0);
        expect(high - low).toBeGreaterThan(-1e-9);
        expect(high).toBeLessThan(BETZ_LIMIT);
      }),
    );
    expect(idealPowerCoefficient(1000)).toBeCloseTo(BETZ_LIMIT, 4);
  });
});

/** (8/λ²) ∫ a′(1 − a) x³ dx over the local speed ratio x, with a′ = (1 − 3a)/(4a − 1). */
function byQuadrature(lambda: number): number {
  const steps = 4000;
  const integrand = (x: number): number => {
    const a = inductionAt(x);
    return ((1 - 3 * a) / (4 * a - 1)) * (1 - a) * x ** 3;
  };
  let sum = integrand(lambda);
  for (let i = 1; i < steps; i += 1) sum += (i % 2 === 0 ? 2 : 4) * integrand((lambda * i) / steps);
  return ((8 / lambda ** 2) * sum * lambda) / steps / 3;
}

/** Induction at the local speed ratio x: x² = (1 − a)(4a − 1)²/(1 − 3a). */
function inductionAt(x: number): number {
  let [low, high] = [0.25, 1 / 3];
  for (let i = 0; i < 50; i += 1) {
    const a = (low + high) / 2;
    if ((1 - a) * (4 * a - 1) ** 2 < x * x * (1 - 3 * a)) low = a;
    else high = a;
  }
  return (low + high) / 2;
}

describe('power in the wind', () => {
  it('½ρAv³: 4.822671 W through a disc of 0.4 m at 4 m/s in 1.1993 kg/m³', () => {
    const area_m2 = discArea_m2(0.2);
    expect(area_m2).toBeCloseTo(0.125664, 6);
    expect(windPower_W({ airDensity_kgpm3: 1.1993, area_m2, meanCube_m3ps3: 64 })).toBeCloseTo(4.822671, 6);
  });

  it('takes the mean of v³: 1 + 3·TI² times the cube of the mean, exactly for two equal halves', () => {
    expect(meanCube_m3ps3([3, 5])).toBe(76);
    expect(64 * gustFactor(0.25)).toBe(76);
  });

  it('and for gusts of a normal law', () => {
    const random = createRandom(27);
    const readings = Array.from({ length: 100_000 }, () => 4 * (1 + 0.15 * normal(random)));
    expect(Math.abs(meanCube_m3ps3(readings) / (64 * gustFactor(0.15)) - 1)).toBeLessThan(0.005);
  });
});

describe('a traverse over rings of equal area', () => {
  const DISC = { radius_m: 1, hubRadius_m: 0 };
  const profile = (r: number): number => 4.5 - 2 * r * r;

  it.each([
    [3, [0.4082, 0.7071, 0.9129]],
    [5, [0.3162, 0.5477, 0.7071, 0.8367, 0.9487]],
  ])('%i rings: r/R = √((2i − 1)/2n)', (rings, radii) => {
    equalAreaRadii_m(DISC, rings).forEach((r, i) => expect(r).toBeCloseTo(radii[i] ?? NaN, 4));
  });

  it('rings of a rotor with a hub have equal areas too', () => {
    const ring = { radius_m: 0.2, hubRadius_m: 0.03 };
    const squares = equalAreaRadii_m(ring, 4).map((r) => r * r);
    squares.slice(1).forEach((square, i) => {
      expect(square - (squares[i] ?? NaN)).toBeCloseTo((0.2 ** 2 - 0.03 ** 2) / 4, 15);
    });
  });

  it('of v = 4.5 − 2(r/R)², mean 3.5 and (mean v³)^(1/3) 3.592758: 3.50000 and 3.58914 by 5 rings', () => {
    const of = (rings: number) =>
      rotorWind({ rings_mps: equalAreaRadii_m(DISC, rings).map(profile), atPlace_mps: 4.5 });
    expect(of(5).mean_mps).toBeCloseTo(3.5, 9);
    expect(of(5).energyWind_mps).toBeCloseTo(3.58914, 5);
    expect(of(500).energyWind_mps).toBeCloseTo(3.592758, 5);
    expect(of(5).energyFactor).toBeCloseTo((3.58914 / 3.5) ** 3, 5);
    expect(of(5).placeFactor).toBeCloseTo(3.58914 / 4.5, 5);
  });
});

describe('anemometers (common practice, no source)', () => {
  it('a cheap vane turns from 0.3 m/s and is off by ±(3 % + 0.1 m/s)', () => {
    expect([isTurning(ANEMOMETERS.vane, 0.25), isTurning(ANEMOMETERS.vane, 0.35)]).toEqual([false, true]);
    expect(isTurning(ANEMOMETERS.cups, 0.25)).toBe(true);
    expect(anemometerUncertainty_mps(ANEMOMETERS.vane, 4)).toBeCloseTo(0.22 / Math.sqrt(3), 15);
  });
});
