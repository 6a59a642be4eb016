/**
 * Power curves by bins, against curves of small turbines that NREL publishes (turbine-models
 * repository, BSD-3-Clause): wind m/s, power kW, and the power coefficient they list for it.
 */
import { describe, expect, it } from 'vitest';
import { curveOfTrials } from '#core/experiment/budget/curve-of-trials.ts';
import { powerCurve, type CurvePoint } from '#core/rotor/wind/power-curve.ts';
import { BETZ_LIMIT, discArea_m2 } from '#core/rotor/wind/wind-power.ts';
import { budgetedTrial } from '../../support/budgets.ts';

type Listed = readonly (readonly [wind_mps: number, power_kW: number, cp: number])[];
/** 8.9 kW, 7 m across. */
const SEVEN_METRES: Listed = [
  [3, 0.102, 0.16], [4, 0.399, 0.26], [5, 0.848, 0.29], [6, 1.51, 0.3], [7, 2.403, 0.3], [8, 3.602, 0.3],
  [9, 5.071, 0.3], [10, 6.856, 0.29], [11, 8.863, 0.28], [12, 10.885, 0.27], [13, 12.019, 0.23],
];
/** 1.5 kW, 3 m across. */
const THREE_METRES: Listed = [
  [4, 0.057, 0.2], [5, 0.141, 0.26], [6, 0.27, 0.29], [7, 0.443, 0.3], [8, 0.677, 0.3], [9, 0.954, 0.3],
  [10, 1.237, 0.28], [11, 1.483, 0.26], [12, 1.64, 0.22],
];
/** 2.1 kW, 3.7 m across, listed at the means of its own bins. */
const IN_BETWEEN: Listed = [
  [4.03, 0.084, 0.2], [5, 0.203, 0.25], [6, 0.391, 0.28], [6.99, 0.643, 0.29], [7.99, 0.968, 0.29],
  [8.99, 1.333, 0.28], [9.98, 1.745, 0.27], [10.97, 2.101, 0.24], [11.93, 2.301, 0.21],
];

const point = (wind_mps: number, power_W: number, change: Partial<CurvePoint> = {}): CurvePoint => ({
  wind_mps,
  windUncertainty_mps: 0,
  power_W,
  powerUncertainty_W: 0,
  airDensity_kgpm3: 1.225,
  densityUncertainty_kgpm3: 0,
  ...change,
});
const disc = (diameter_m: number): number => discArea_m2(diameter_m / 2);

describe('published curves of small turbines', () => {
  it.each([
    ['7 m', 7, SEVEN_METRES],
    ['3 m', 3, THREE_METRES],
    ['3.7 m', 3.7, IN_BETWEEN],
  ] as const)('%s: power as listed, power coefficient to 0.006', (_, diameter_m, listed) => {
    const bins = powerCurve(listed.map(([wind, kW]) => point(wind, 1000 * kW)), { area_m2: disc(diameter_m), binWidth_mps: 0.5 });
    expect(bins).toHaveLength(listed.length);
    bins.forEach(({ power_W, wind_mps, powerCoefficient }, i) => {
      const [wind, kW, cp] = listed[i] ?? [NaN, NaN, NaN];
      expect([wind_mps, power_W]).toEqual([wind, 1000 * kW]);
      expect(Math.abs(powerCoefficient - cp)).toBeLessThan(0.006);
      expect(powerCoefficient).toBeLessThan(BETZ_LIMIT);
    });
  });

  it('measured in thin air, a fixed-pitch rotor has the same curve', () => {
    const area_m2 = disc(7);
    const thin = SEVEN_METRES.map(([wind, kW]) => point(wind, (1000 * kW * 1.05) / 1.225, { airDensity_kgpm3: 1.05 }));
    const bins = powerCurve(thin, { area_m2, binWidth_mps: 0.5 });
    bins.forEach(({ power_W }, i) => expect(power_W).toBeCloseTo(1000 * (SEVEN_METRES[i]?.[1] ?? NaN), 9));
  });

  it('trials that scatter within a bin: their means', () => {
    const points = SEVEN_METRES.flatMap(([wind, kW]) => [-0.1, 0, 0.1].map((off) => point(wind + off, 1000 * (kW + off * 0.3))));
    const bins = powerCurve(points, { area_m2: disc(7), binWidth_mps: 0.5 });
    expect(bins.map(({ count, isComplete }) => [count, isComplete])).toEqual(SEVEN_METRES.map(() => [3, true]));
    bins.forEach(({ wind_mps, power_W, typeA_W }, i) => {
      expect(wind_mps).toBeCloseTo(SEVEN_METRES[i]?.[0] ?? NaN, 9);
      expect(power_W).toBeCloseTo(1000 * (SEVEN_METRES[i]?.[1] ?? NaN), 9);
      // −30, 0, 30 W: a standard deviation of 30 W, over √3.
      expect(typeA_W).toBeCloseTo(30 / Math.sqrt(3), 9);
    });
  });
});

describe('bins', () => {
  const AREA = { area_m2: disc(0.4) };

  it('are centred on multiples of their width and hold their lower edge', () => {
    const bins = powerCurve([3.87, 3.875, 4, 4.12, 4.125].map((wind) => point(wind, 0.1)), AREA);
    expect(bins.map(({ middle_mps, count }) => [middle_mps, count])).toEqual([[3.75, 1], [4, 3], [4.25, 1]]);
    const edge = powerCurve([0.15, 0.25, 0.35].map((wind) => point(wind, 0.1)), { ...AREA, binWidth_mps: 0.1 });
    expect(edge.map(({ middle_mps }) => Number(middle_mps.toFixed(6)))).toEqual([0.2, 0.3, 0.4]);
  });

  it('one trial alone has a power, and no uncertainty that could be told', () => {
    const [bin] = powerCurve([point(4, 0.15)], AREA);
    expect(bin).toMatchObject({ count: 1, isComplete: false, power_W: 0.15, typeA_W: null, standardUncertainty_W: null });
    expect(powerCurve([], AREA)).toEqual([]);
  });

  it('Type B: power by itself, wind by the steepness, density in proportion; none averages away', () => {
    const of = (change: Partial<CurvePoint>) =>
      powerCurve([3, 3, 3, 4, 4, 4].map((wind) => point(wind, 0.1 * (wind - 2), change)), AREA)[1];
    expect(of({ powerUncertainty_W: 0.004 })?.typeB_W).toBeCloseTo(0.004, 12);
    // 0.1 W for 1 m/s.
    expect(of({ windUncertainty_mps: 0.12 })?.typeB_W).toBeCloseTo(0.012, 12);
    expect(of({ densityUncertainty_kgpm3: 0.01225 })?.typeB_W).toBeCloseTo(0.002, 12);
    const wind = of({ windUncertainty_mps: 0.12 });
    expect((wind?.coefficientUncertainty ?? NaN) / (wind?.powerCoefficient ?? NaN)).toBeCloseTo(3 * 0.03, 12);
  });

  it('Type A: s/√N, added to Type B by squares (GUM 4.2, 5.1.2)', () => {
    const points = [0.19, 0.2, 0.21].map((power) => point(4, power, { powerUncertainty_W: 0.004 }));
    const [bin] = powerCurve(points, AREA);
    expect(bin?.typeA_W).toBeCloseTo(0.01 / Math.sqrt(3), 12);
    expect(bin?.standardUncertainty_W).toBeCloseTo(Math.hypot(0.01 / Math.sqrt(3), 0.004), 12);
  });

  it('of trials: power and wind with what their instruments have in common', () => {
    const trial = (id: number, wind: number, v: number) => ({
      ...budgetedTrial({ id, v, i: 0.05, u_W: 0.0005 }),
      recordingId: 1,
      factors: {},
      windSpeed_mps: { value: wind, standardUncertainty: 0.02, degreesOfFreedom: 20 },
      rotorSpeed_radps: null,
    });
    const said = {
      radius_m: 0.2,
      hubRadius_m: 0,
      air: { temperature_degC: 20, pressure_Pa: 101_325, altitude_m: null, relativeHumidity: 0.5 },
      anemometer: { startsAt_mps: 0.3, relative: 0.03, absolute_mps: 0.1 },
      traverse: null,
    };
    const read = [trial(1, 3, 2), trial(2, 4, 3), trial(3, 4, 3.1), { ...trial(4, 4, 3), windSpeed_mps: null }];
    const [low, high] = curveOfTrials(read, { instruments: [], rotorAndAir: said, airs: [] });
    expect([low?.count, high?.count]).toEqual([1, 2]);
    expect(high?.power_W).toBeCloseTo((0.1525 * 1.225) / 1.199314, 5);
    const steepness = (high!.power_W - low!.power_W) / 1;
    // Nothing is known of the electrical instruments here: the wind makes nearly all of it.
    expect(high!.typeB_W / ((steepness * 0.22) / Math.sqrt(3))).toBeCloseTo(1, 2);
    expect(curveOfTrials(read, { instruments: [], rotorAndAir: null, airs: [] })).toEqual([]);
  });
});
