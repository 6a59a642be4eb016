/**
 * A power coefficient with its budget: against figures by an independent program (SciPy 1.17), and
 * how often its interval holds the truth of rigs whose truth is known.
 */
import { describe, expect, it } from 'vitest';
import { budgetOf } from '#core/experiment/budget/budget.ts';
import { coefficientOfTrial, type CoefficientTrial } from '#core/experiment/budget/coefficient-of-trial.ts';
import { UNKNOWN_INSTRUMENT } from '#core/instrument/instrument.ts';
import { drawResult } from '#core/metrology/draws.ts';
import { airDensity } from '#core/rotor/wind/air-density.ts';
import { ANEMOMETERS } from '#core/rotor/wind/anemometer.ts';
import { powerCoefficient, withinLimit, type CoefficientInputs } from '#core/rotor/wind/power-coefficient.ts';
import { airOf, RotorAndAirSchema, type RotorAndAir } from '#core/rotor/wind/rotor-and-air.ts';
import { createRandom, normal, uniform } from '#core/virtual-rig/random.ts';
import { budgetedTrial } from '../../support/budgets.ts';

const of = (value: number, u: number) => ({ ...withinLimit(value, u), distribution: 'normal' }) as const;

const BENCH: CoefficientInputs = {
  power: of(0.15, 0.003),
  'air density': of(1.1993, 0.004),
  'rotor radius': of(0.2, 0.001),
  'scatter of the wind': of(4, 0.12),
  anemometer: of(0, 0),
  'correction of the wind': of(0, 0),
  gusts: of(1, 0),
  'place of the anemometer': of(1, 0),
};

describe('P .150 ± .003 W, ρ 1.1993 ± .004, D .40 ± .002, V 4.0 ± .12', () => {
  const found = powerCoefficient(BENCH);

  it('is .031103 with u .002886, of 4.822671 W', () => {
    expect(found.windPower_W).toBeCloseTo(4.822671, 6);
    expect(found.value).toBeCloseTo(0.031103, 6);
    expect(found.standardUncertainty).toBeCloseTo(0.002886, 6);
    expect(found.isBeyondBetz).toBe(false);
  });

  it('and nearly all of that comes from the wind', () => {
    expect(found.rows.map(({ cause }) => cause)).toEqual([
      'scatter of the wind', 'power', 'rotor radius', 'air density',
    ]);
    const shares = [0.9406, 0.0465, 0.0116, 0.0013];
    found.rows.forEach(({ share }, i) => expect(share).toBeCloseTo(shares[i] ?? NaN, 4));
  });

  it('agrees with draws of the model itself (JCGM 101)', () => {
    const random = createRandom(31);
    const draw = () => {
      const wind = 4 + 0.12 * normal(random);
      const area = (Math.PI / 4) * (0.4 + 0.002 * normal(random)) ** 2;
      return (0.15 + 0.003 * normal(random)) / (0.5 * (1.1993 + 0.004 * normal(random)) * area * wind ** 3);
    };
    const drawn = drawResult(draw, 50_000);
    expect(Math.abs(drawn.standardUncertainty / found.standardUncertainty - 1)).toBeLessThan(0.05);
  });
});

const SAID: RotorAndAir = {
  radius_m: 0.2,
  hubRadius_m: 0,
  air: { temperature_degC: 20, pressure_Pa: 101_325, altitude_m: null, relativeHumidity: 0.5 },
  anemometer: ANEMOMETERS.vane,
  traverse: null,
};
const trial = (change: Partial<CoefficientTrial> = {}, v = 3, i = 0.05) => {
  const read = budgetedTrial({ v, i, u_W: 0.01 * v * i });
  const wind = { value: 4, standardUncertainty: 0.02, degreesOfFreedom: 20 };
  return { ...read, factors: {}, windSpeed_mps: wind, rotorSpeed_radps: null, ...change };
};
const coefficient = (read = trial(), said: RotorAndAir | null = SAID) =>
  coefficientOfTrial(read, budgetOf(read, { id: 'rig', instrument: UNKNOWN_INSTRUMENT }), said);
const known = (read = trial(), said = SAID) => {
  const found = coefficient(read, said);
  if (found.kind === 'none') throw new Error(found.why);
  return found;
};

describe('of a trial', () => {
  it('rests on power, air, rotor and wind', () => {
    const found = known();
    const wind_W = 0.5 * 1.199314 * Math.PI * 0.04 * 64;
    expect(Math.abs(found.value / (0.15 / wind_W) - 1)).toBeLessThan(0.016);
    expect(found.airDensity_kgpm3).toBeCloseTo(1.199314, 6);
    expect(found.rows[0]?.cause).toBe('anemometer');
    expect(found.gaps).toEqual(['wind across the rotor']);
    expect([found.tipSpeedRatio, found.idealAtSpeed]).toEqual([null, null]);
  });

  it('says why there is none', () => {
    const whys = [
      coefficient(trial(), null),
      coefficient(trial({ windSpeed_mps: null })),
      coefficient(trial({ windSpeed_mps: { value: 0.2, standardUncertainty: 0.01, degreesOfFreedom: 9 } })),
      coefficient(trial({ windSpeed_mps: { value: 1e-200, standardUncertainty: 0, degreesOfFreedom: 9 } }), { ...SAID, anemometer: null }),
      coefficient(trial(), { ...SAID, radius_m: null }),
      coefficientOfTrial(trial(), null, SAID),
    ].map((found) => found.kind === 'none' && found.why);
    expect(whys).toEqual([
      'rotor not described', 'no wind reading', 'too little wind', 'too little wind', 'rotor not described', 'no power',
    ]);
  });

  // Betz, Glauert and IEC 61400-12-1 all relate to the whole disc, πR².
  it('is of the whole disc, whatever the hub takes', () => {
    expect(known(trial(), { ...SAID, hubRadius_m: 0.1 }).value).toBe(known().value);
  });

  it('takes the blades’ own length where that is what is changed', () => {
    const said = { ...SAID, hubRadius_m: 0.03 };
    expect(known(trial({ factors: { length_m: 0.08 } }), said).radius_m).toBeCloseTo(0.11, 12);
    expect(coefficient(trial({ factors: { length_m: 'short' } }), said)).toEqual({ kind: 'none', why: 'blade length without a number' });
  });

  it('milliamperes taken for amperes make it impossible: above 16/27', () => {
    expect(known(trial({}, 3, 50)).isBeyondBetz).toBe(true);
    expect(known().isBeyondBetz).toBe(false);
  });

  it('a traverse moves the wind from the anemometer’s place to the rotor', () => {
    const traverse = { rings_mps: [3.6, 3.6], atPlace_mps: 4 };
    const found = known(trial(), { ...SAID, traverse });
    expect(found.value / known().value).toBeCloseTo(1 / 0.9 ** 3, 9);
    expect(found.gaps).toEqual([]);
  });

  it('with the rotor’s speed it says what an ideal rotor would reach there (Glauert)', () => {
    const found = known(trial({ rotorSpeed_radps: { value: 40, standardUncertainty: 0.1, degreesOfFreedom: 9 } }));
    expect(found.tipSpeedRatio).toBeCloseTo(2, 12);
    expect(found.idealAtSpeed).toBeCloseTo(0.511187, 6);
  });

  describe('whose samples tell of gusts', () => {
    /** v = 4(1 + a·sin): mean v³ = 64(1 + 1.5·a²), exactly. */
    const swinging = (a: number, readings_Hz = 50) => ({ meanCube_m3ps3: 64 * (1 + 1.5 * a ** 2), readings_Hz });
    const gustsRow = (found: ReturnType<typeof known>) => found.rows.find(({ cause }) => cause === 'gusts');

    it('takes the wind’s power from their mean of v³', () => {
      const found = known(trial({ windGusts: swinging(0.3) }));
      expect(found.gustsFrom).toBe('samples');
      expect(found.windPower_W).toBeCloseTo(0.5 * found.airDensity_kgpm3 * Math.PI * 0.04 * 64 * 1.135, 9);
      // Steady air: nothing is added for gusts that were not there, and they leave nothing open.
      const steady = known(trial({ windGusts: swinging(0) }));
      expect(steady.value / known().value).toBeCloseTo(1.015, 9);
      expect(gustsRow(steady)).toBeUndefined();
    });

    it('has what is usual, and says so, where the wind meter is too slow or the samples are not known', () => {
      const slow = known(trial({ windGusts: swinging(0.3, 2) }));
      expect([slow.gustsFrom, slow.value]).toEqual(['slow wind meter', known().value]);
      expect(known().gustsFrom).toBe('usual');
      expect(gustsRow(known())).toMatchObject({ value: expect.closeTo(1.015, 12) as number, distribution: 'rectangular' });
    });

    it('leaves as much open as the readings may be noise, and the more the fewer they were', () => {
      const uOf = (degreesOfFreedom: number) => {
        const windSpeed_mps = { value: 4, standardUncertainty: 0.02, degreesOfFreedom };
        return gustsRow(known(trial({ windGusts: swinging(0.2), windSpeed_mps })))!.standardUncertainty;
      };
      // 0.06 · √(2/50 + 1/3)
      expect(uOf(50)).toBeCloseTo(0.06 * Math.sqrt(0.04 + 1 / 3), 12);
      expect(uOf(5)).toBeGreaterThan(uOf(50));
    });

    it('put right by a factor keeps them, by an offset has them of the other mean', () => {
      const measured = { voltage_V: null, current_A: null, power_W: null, windSpeed_mps: trial().windSpeed_mps };
      const right = (gain: number, offset: number) => {
        const wind = { value: 4 * gain + offset, standardUncertainty: 0.02, degreesOfFreedom: 20 };
        return gustsRow(known(trial({ windGusts: swinging(0.2), windSpeed_mps: wind, correction: { by: { windSpeed_mps: { gain, offset } }, measured } })))!.value;
      };
      expect(right(1.2, 0)).toBeCloseTo(1.06, 12);
      // v + 1 = 5(1 + 0.16·sin)
      expect(right(1, 1)).toBeCloseTo(1 + 1.5 * 0.16 ** 2, 12);
    });
  });

  it('a keyed wind holds its meter’s limits already', () => {
    const causes = known(trial({ basis: 'keyed' })).rows.map(({ cause }) => cause);
    expect(causes).not.toContain('anemometer');
  });

  it('air that nobody described is anywhere between the sea and some 1500 m', () => {
    const nothing = { temperature_degC: null, pressure_Pa: null, altitude_m: null, relativeHumidity: null };
    const { air, u } = airOf(nothing);
    const { density_kgpm3, standardUncertainty_kgpm3 } = airDensity(air, u);
    // ISO 2533: 1.225 and 1.05807 kg/m³.
    expect(density_kgpm3 + 2 * standardUncertainty_kgpm3).toBeGreaterThan(1.2);
    expect(density_kgpm3 - 2 * standardUncertainty_kgpm3).toBeLessThan(1.05807);
    expect(known(trial(), { ...SAID, air: nothing }).standardUncertainty).toBeGreaterThan(known().standardUncertainty);
  });

  it('its 95 % interval holds the truth of benches anywhere within their limits', () => {
    const random = createRandom(95);
    const anywhere = (limit: number) => limit * (2 * random01() - 1);
    const random01 = () => uniform(random);
    let held = 0;
    const BENCHES = 1000;
    for (let n = 0; n < BENCHES; n += 1) {
      const read = 4 + 0.02 * normal(random);
      const trueWind = read + anywhere(0.03 * read + 0.1);
      const radius = 0.2 + anywhere(0.002);
      const air = { temperature_degC: 20 + anywhere(1), pressure_Pa: 101_325 + anywhere(200), relativeHumidity: 0.5 };
      const truth = 0.15 / (0.5 * airDensity(air).density_kgpm3 * Math.PI * radius ** 2 * trueWind ** 3 * (1 + 3 * (0.1 * random01()) ** 2));
      const wind = { value: read, standardUncertainty: 0.02, degreesOfFreedom: 20 };
      const i = 0.05 * (1 + 0.01 * normal(random));
      const { value, expandedUncertainty } = known(trial({ windSpeed_mps: wind }, 3, i));
      if (Math.abs(value - truth) <= expandedUncertainty) held += 1;
    }
    expect(held / BENCHES).toBeGreaterThan(0.92);
    expect(held / BENCHES).toBeLessThan(0.99);
  });
});

describe('RotorAndAirSchema', () => {
  it.each([
    ['a hub as large as the rotor', { hubRadius_m: 0.2 }],
    ['a radius in centimetres', { radius_m: 20 }],
    ['a radius of nothing', { radius_m: 0 }],
    ['humidity in per cent', { air: { ...SAID.air, relativeHumidity: 50 } }],
    ['pressure in hPa', { air: { ...SAID.air, pressure_Pa: 1013 } }],
    ['a traverse of one ring', { traverse: { rings_mps: [4], atPlace_mps: 4 } }],
    ['something else', { chord_m: 0.05 }],
  ])('refuses %s', (_, change) => {
    expect(RotorAndAirSchema.safeParse(SAID).success).toBe(true);
    expect(RotorAndAirSchema.safeParse({ ...SAID, ...change }).success).toBe(false);
  });
});
