/** Power against wind as trials come in: which belong together, and when they are a curve. */
import { describe, expect, it } from 'vitest';
import { windCurveOf } from '#core/experiment/budget/wind-curve.ts';
import { PlanSchema } from '#core/experiment/plan/plan.ts';
import type { ShownTrial } from '#core/experiment/trial.ts';
import { NO_EXPERIMENT } from '#core/experiment/view.ts';
import { BETZ_LIMIT, discArea_m2 } from '#core/rotor/wind/wind-power.ts';
import { asShares, onCurve, powerMeans, shareAxis, shareMeans } from '../../../web/draw/wind-marks.ts';
import { acrossByWind } from '../../../web/draw/trial-marks.ts';
import { ROTOR_AND_AIR } from '../../support/budgets.ts';
import { trialOf } from '../web/fixtures.ts';

const VIEW = { ...NO_EXPERIMENT, rotorAndAir: ROTOR_AND_AIR };
const wind = (value: number) => ({ value, standardUncertainty: 0.01, degreesOfFreedom: 30 });
/** C_p of 0.05 on a disc of 0.2 m in air of 1.2 kg/m³. */
const powerAt_mW = (wind_mps: number): number => 1000 * 0.05 * 0.5 * 1.2 * discArea_m2(0.2) * wind_mps ** 3;
const at = (id: number, wind_mps: number, more: Partial<ShownTrial> = {}) =>
  trialOf(id, powerAt_mW(wind_mps), { windSpeed_mps: wind(wind_mps), ...more });
const THREE_WINDS = [2.5, 3.25, 4].flatMap((wind_mps, i) => [0, 0.01, -0.02].map((off, j) => at(3 * i + j + 1, wind_mps + off)));

function known(...given: Parameters<typeof windCurveOf>) {
  const curve = windCurveOf(...given);
  if (curve?.kind !== 'known') throw new Error(`no curve: ${curve?.kind}`);
  return curve;
}

describe('a power curve', () => {
  it('is none while the winds are one wind, though it lies at the edge of two bins', () => {
    expect(windCurveOf(VIEW, [])).toBeNull();
    // 4.125 m/s is where the bins of 4 and 4.25 m/s meet.
    expect(windCurveOf(VIEW, [at(1, 4.1), at(2, 4.15), at(3, 4.3)])).toBeNull();
  });

  it('has bins and trials once the winds lie apart, and asks for the rotor before', () => {
    expect(windCurveOf(NO_EXPERIMENT, THREE_WINDS)).toEqual({ kind: 'rotor not described' });
    const { bins, trials } = known(VIEW, THREE_WINDS);
    expect(bins.map(({ middle_mps, count }) => [middle_mps, count])).toEqual([[2.5, 3], [3.25, 3], [4, 3]]);
    expect(trials).toHaveLength(9);
    // At the density of its own air the mean lies among its trials, not beside them.
    for (const { power_W, middle_mps } of bins) expect(power_W / (powerAt_mW(middle_mps) / 1000)).toBeCloseTo(1, 1);
  });

  it('grows with each trial, and leaves out what is struck, cut short or did not turn', () => {
    const more = [at(10, 5), at(11, 5.5, { struck: true }), at(12, 5.5, { recorded: false }), at(13, 5.5, { rotorStill: true })];
    const { bins } = known(VIEW, [...THREE_WINDS, ...more]);
    expect(bins.map(({ middle_mps }) => middle_mps)).toEqual([2.5, 3.25, 4, 5]);
  });

  it('is of trials set alike, but for the fan', () => {
    const level = (value: number) => ({ label: `${value}°`, value });
    const plan = PlanSchema.parse({
      question: 'Which?',
      factors: [
        { kind: 'angle', key: 'angle_deg', name: 'Angle', levels: [10, 25].map(level) },
        { kind: 'fan', key: 'fan', name: 'Fan', levels: [{ label: 'low', value: null }, { label: 'high', value: null }] },
      ],
      ...{ design: 'factorial', rounds: 1, order: 'listed', seed: 1 },
    });
    const set = (angle_deg: number, fan: string) => ({ factors: { angle_deg, fan } });
    const trials = [at(1, 3, set(10, 'low')), at(2, 4, set(10, 'high')), at(3, 3, set(25, 'low')), at(4, 4.1, set(25, 'high'))];
    expect(known({ ...VIEW, plan }, trials).trials.map(({ trial }) => trial.id)).toEqual([3, 4]);
    // Without a plan nobody says that "fan" is the fan: another setting is another rotor.
    expect(windCurveOf(VIEW, trials)).toBeNull();
  });
});

describe('its marks', () => {
  const curve = known(VIEW, THREE_WINDS);
  const ground = { left: 0, right: 400, rem: 16 };

  it('have what the trials scatter and what the instruments leave open apart', () => {
    const [mean] = shareMeans(curve.bins);
    const [bin] = curve.bins;
    // Student's t for 2 degrees of freedom, and the normal law, 95 %.
    expect(mean!.halfPower_W! / bin!.coefficientTypeA!).toBeCloseTo(4.303, 3);
    expect(mean!.halfCommon_W / bin!.coefficientTypeB).toBeCloseTo(1.96, 2);
    const { coefficientTypeA, coefficientTypeB, coefficientUncertainty } = bin!;
    expect(Math.hypot(coefficientTypeA!, coefficientTypeB)).toBeCloseTo(coefficientUncertainty!, 12);
    const [alone] = powerMeans(known(VIEW, [...THREE_WINDS, at(10, 5)]).bins.slice(-1));
    expect(alone!.halfPower_W).toBeNull();
    expect(alone!.halfCommon_W).toBeGreaterThan(0);
  });

  it('of shares stand at the share of the wind’s power, one line a ring', () => {
    const { marks } = onCurve(acrossByWind(asShares(THREE_WINDS, curve.trials), null, ground));
    expect(marks).toHaveLength(9);
    // 1.5 % less than 0.05, for the gusts of the jet.
    for (const { power_W, halfAcross } of marks) {
      expect(power_W).toBeCloseTo(0.05 / 1.015, 3);
      expect(halfAcross).toBe(0);
    }
  });

  it('have Betz’s limit on their axis where there is room for both', () => {
    expect(shareAxis(curve.trials, shareMeans(curve.bins)).high).toBeLessThan(BETZ_LIMIT);
    const strong = THREE_WINDS.map((one) => ({ ...one, power_W: { ...one.power_W!, value: 8 * one.power_W!.value } }));
    const { trials, bins } = known(VIEW, strong);
    expect(shareAxis(trials, shareMeans(bins)).high).toBeGreaterThanOrEqual(BETZ_LIMIT);
  });
});
