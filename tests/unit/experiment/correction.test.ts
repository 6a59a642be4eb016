/** What a wrong calibration did to a trial, put right from its means: against the samples themselves. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { budgetOf } from '#core/experiment/budget/budget.ts';
import { causesOfTrial } from '#core/experiment/budget/trial-causes.ts';
import { canCorrect, correctedBy, measuredOf, type Readings } from '#core/experiment/correction.ts';
import { UNKNOWN_INSTRUMENT } from '#core/instrument/instrument.ts';
import { budgetedTrial, DIVIDER_AND_SHUNT } from '../../support/budgets.ts';

const mean = (series: readonly number[]): number =>
  series.reduce((sum, one) => sum + one, 0) / series.length;

/** Mean and standard uncertainty of independent readings (JCGM 100:2008 (GUM), 4.2.3). */
function measured(series: readonly number[]) {
  const value = mean(series);
  const squares = series.reduce((sum, one) => sum + (one - value) ** 2, 0);
  const n = series.length;
  const standardUncertainty = Math.sqrt(squares / (n - 1) / n);
  return { value, standardUncertainty, degreesOfFreedom: n - 1 };
}

function readingsOf(v: readonly number[], i: readonly number[]): Readings {
  return {
    voltage_V: measured(v),
    current_A: measured(i),
    power_W: measured(v.map((one, k) => one * (i[k] ?? NaN))),
    windSpeed_mps: null,
  };
}

// The simultaneous readings of JCGM 100:2008 (GUM), H.2, table H.2 (there an impedance is measured).
const V = [5.007, 4.994, 5.005, 4.99, 4.999];
const I = [19.663, 19.639, 19.64, 19.685, 19.678].map((mA) => mA / 1000);

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe('a correction', () => {
  it.each([
    ['of the divider', { voltage_V: { gain: 1.1, offset: 0 } }],
    ['of the zero', { voltage_V: { gain: 1, offset: -0.25 } }],
    ['of both channels', { voltage_V: { gain: 0.9, offset: 0.3 }, current_A: { gain: 2, offset: 0.004 } }],
    ['of the sign', { current_A: { gain: -1, offset: 0 } }],
  ])('%s gives what the samples would have given', (_, by) => {
    const line = { gain: 1, offset: 0 };
    const { voltage_V: ofV = line, current_A: ofI = line } = by as {
      voltage_V?: typeof line;
      current_A?: typeof line;
    };
    const exact = readingsOf(
      V.map((v) => ofV.gain * v + ofV.offset),
      I.map((i) => ofI.gain * i + ofI.offset),
    );
    const put = correctedBy(readingsOf(V, I), by);
    for (const quantity of ['voltage_V', 'current_A', 'power_W'] as const) {
      expect(put[quantity]?.value).toBeCloseTo(exact[quantity]!.value, 12);
      // The covariance of V and I is worked back from u(P), to second order in their scatter.
      const ratio = put[quantity]!.standardUncertainty! / exact[quantity]!.standardUncertainty!;
      expect(ratio).toBeCloseTo(1, 3);
    }
  });

  it('replaces the one before, and none brings back what was measured', () => {
    fc.assert(
      fc.property(between(0.01, 100), between(-9, 9), (gain, offset) => {
        const readings = readingsOf(V, I);
        const once = correctedBy(readings, { voltage_V: { gain, offset } });
        expect(measuredOf(once)).toEqual(readings);
        expect(correctedBy(measuredOf(once), {})).toEqual({ ...readings, correction: null });
      }),
    );
  });

  it('of a trial that has only power can be a factor, and no offset', () => {
    const only = { ...readingsOf(V, I), voltage_V: null, current_A: null };
    expect(canCorrect(only, 'voltage_V', { offset: 0 })).toBe(true);
    expect(canCorrect(only, 'voltage_V', { offset: 0.1 })).toBe(false);
    expect(canCorrect(only, 'windSpeed_mps', { offset: 0 })).toBe(false);
    const put = correctedBy(only, { voltage_V: { gain: 2, offset: 0 } });
    expect(put.power_W?.value).toBe(2 * only.power_W!.value);
  });

  it('of what nobody knows the scatter of leaves it unknown', () => {
    const readings = readingsOf(V, I);
    const vague = { ...readings, current_A: { ...readings.current_A!, standardUncertainty: null } };
    const put = correctedBy(vague, { voltage_V: { gain: 1, offset: 0.1 } });
    expect(put.power_W?.standardUncertainty).toBeNull();
  });
});

describe('the budget of a corrected trial', () => {
  const trial = budgetedTrial({ v: 3, i: 0.05, u_V: 0.003, u_A: 5e-5, u_W: 6e-4 });
  const rig = { id: 'rig', instrument: DIVIDER_AND_SHUNT };
  const readings = { ...measuredOf({ ...trial, windSpeed_mps: null }), windSpeed_mps: null };
  const correctedTrial = (by: Parameters<typeof correctedBy>[1]) => {
    return { ...trial, ...correctedBy(readings, by) };
  };

  it('is that of the measured one, times the gain', () => {
    const plain = budgetOf(trial, rig)!;
    const scaled = budgetOf(correctedTrial({ voltage_V: { gain: 2, offset: 0 } }), rig)!;
    expect(scaled.value_W).toBeCloseTo(2 * plain.value_W, 12);
    expect(scaled.standardUncertainty_W / plain.standardUncertainty_W).toBeCloseTo(2, 9);
    expect(scaled.rows.map(({ cause }) => cause)).toEqual(plain.rows.map(({ cause }) => cause));
  });

  it('moves each cause as the corrected reading moves with it', () => {
    const by = { voltage_V: { gain: 2, offset: -0.5 } };
    const { causes } = causesOfTrial(correctedTrial(by), DIVIDER_AND_SHUNT);
    const { causes: plain } = causesOfTrial(trial, DIVIDER_AND_SHUNT);
    for (const [at, cause] of causes.entries()) {
      const { gain, offset } = plain[at]!.voltage;
      const small = 1e-6;
      const wrong = 2 * (3 * (1 + gain * small) + offset * small) - 0.5;
      const told = 5.5 * (1 + cause.voltage.gain * small) + cause.voltage.offset * small;
      expect(told).toBeCloseTo(wrong, 12);
    }
  });

  it('says that nobody knows how well the correction is known', () => {
    const unknown = { id: 'rig', instrument: UNKNOWN_INSTRUMENT };
    expect(budgetOf(trial, unknown)!.gaps).not.toContain('correction');
    expect(budgetOf(correctedTrial({ current_A: { gain: 2, offset: 0 } }), unknown)!.gaps).toContain('correction');
  });
});
