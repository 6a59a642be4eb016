/** What a wrong calibration did to a trial, put right from its means: against the samples themselves. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { budgetOf } from '#core/experiment/budget/budget.ts';
import { coefficientOfTrial } from '#core/experiment/budget/coefficient-of-trial.ts';
import { differenceOf, meanOfLevel, ratioOf } from '#core/experiment/budget/contrast.ts';
import { asOne, errorsOf } from '#core/experiment/budget/corrections.ts';
import { causesOfTrial } from '#core/experiment/budget/trial-causes.ts';
import { canCorrect, correctedBy, measuredOf, type Readings } from '#core/experiment/correction.ts';
import { UNKNOWN_INSTRUMENT } from '#core/instrument/instrument.ts';
import { budgetedTrial, DIVIDER_AND_SHUNT, ROTOR_AND_AIR } from '../../support/budgets.ts';

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

  /** Known to ±2 %: limits, so u = 2 %/√3 (JCGM 100:2008 (GUM), 4.3.7). */
  const LIMITS = { of: 'gain', standardUncertainty: 0.02 / Math.sqrt(3), distribution: 'rectangular' } as const;
  const bare = { id: 'rig', instrument: UNKNOWN_INSTRUMENT };
  const byTwo = { voltage_V: { gain: 2, offset: 0, knownTo: LIMITS } };
  /** At another level, with another power. */
  const other = budgetedTrial({ v: 1, i: 0.02, u_V: 0.003, u_A: 5e-5, u_W: 6e-4 });
  const otherCorrected = {
    ...other,
    ...correctedBy({ ...measuredOf({ ...other, windSpeed_mps: null }), windSpeed_mps: null }, byTwo),
  };

  it('has how well the correction is known as a component, and no gap', () => {
    const unsaid = budgetOf(correctedTrial({ voltage_V: { gain: 2, offset: 0 } }), bare)!;
    const said = budgetOf(correctedTrial(byTwo), bare)!;
    expect(said.gaps).not.toContain('correction');
    const row = said.rows.find(({ cause }) => cause === 'correction')!;
    expect(row).toMatchObject({ channel: 'voltage', unit: 'ratio', distribution: 'rectangular' });
    // Power is proportional to voltage: 2 %/√3 of it.
    expect(row.contribution_W).toBeCloseTo((0.02 / Math.sqrt(3)) * said.value_W, 12);
    const whole = Math.hypot(unsaid.standardUncertainty_W, row.contribution_W);
    expect(said.standardUncertainty_W).toBeCloseTo(whole, 9);
    expect(said.random_W).toBeCloseTo(unsaid.random_W, 12);
  });

  it('of an offset moves power by the current, whatever the sign of the readings', () => {
    const known = { of: 'offset', standardUncertainty: 0.05, distribution: 'normal' } as const;
    const by = { voltage_V: { gain: 1, offset: 0.3, knownTo: known } };
    const row = budgetOf(correctedTrial(by), bare)!.rows.find(({ cause }) => cause === 'correction');
    expect(row?.contribution_W).toBeCloseTo(0.05 * 0.05, 12);
    expect(row).toMatchObject({ unit: 'V', distribution: 'normal' });
  });

  it('is common to all trials that were corrected alike: more of them make it no smaller', () => {
    const one = budgetOf(correctedTrial(byTwo), bare)!;
    const many = Array.from({ length: 9 }, (_, i) => ({ ...one, trialId: i + 1 }));
    const share = 0.02 / Math.sqrt(3);
    expect(meanOfLevel(many).common).toBeCloseTo(share * one.value_W, 12);
    expect(meanOfLevel(many).random).toBeCloseTo(one.random_W / 3, 12);
    // A ratio does not change with it, a difference is scaled by it.
    const less = budgetOf(otherCorrected, bare)!;
    expect(ratioOf(many, [less])!.common).toBeCloseTo(0, 12);
    expect(differenceOf(many, [less]).common).toBeCloseTo(share * (one.value_W - less.value_W), 12);
  });

  it('is another one where something else was corrected', () => {
    const three = { voltage_V: { gain: 3, offset: 0, knownTo: LIMITS } };
    const [a, b] = [budgetOf(correctedTrial(byTwo), bare)!, budgetOf(correctedTrial(three), bare)!];
    const share = 0.02 / Math.sqrt(3);
    const { common } = differenceOf([a], [b]);
    expect(common).toBeCloseTo(share * Math.hypot(a.value_W, b.value_W), 12);
  });

  it('of readings that went through it as they came is the same component', () => {
    const readBy = { voltage_V: [byTwo.voltage_V] };
    const later = { ...trial, id: 2, readBy };
    const [then, now] = [budgetOf(correctedTrial(byTwo), bare)!, budgetOf(later, bare)!];
    const nameOf = ({ rows }: typeof now) => rows.find(({ cause }) => cause === 'correction')?.commonAs;
    expect(nameOf(now)).toBe(nameOf(then));
    expect(now.gaps).not.toContain('correction');
    const unsaid = { ...later, readBy: { voltage_V: [{ gain: 2, offset: 0 }] } };
    expect(budgetOf(unsaid, bare)!.gaps).toContain('correction');
  });

  it('of keyed readings comes on top of their meters', () => {
    const keyed = { ...correctedTrial(byTwo), basis: 'keyed' } as const;
    const unsaid = { ...correctedTrial({ voltage_V: { gain: 2, offset: 0 } }), basis: 'keyed' } as const;
    const [said, less] = [budgetOf(keyed, bare)!, budgetOf(unsaid, bare)!];
    const added = (0.02 / Math.sqrt(3)) * said.value_W;
    expect(said.standardUncertainty_W).toBeCloseTo(Math.hypot(less.standardUncertainty_W, added), 12);
  });

  it('of the wind counts three times in the power coefficient', () => {
    const wind = { ...readings, windSpeed_mps: { value: 3, standardUncertainty: 0.01, degreesOfFreedom: 50 } };
    const corrected = (line: { gain: number; offset: number; knownTo?: typeof known }) => {
      const put = { ...trial, ...correctedBy(wind, { windSpeed_mps: line }), factors: {}, rotorSpeed_radps: null };
      const found = coefficientOfTrial(put, budgetOf(put, bare), ROTOR_AND_AIR);
      if (found.kind === 'none') throw new Error(found.why);
      return found;
    };
    const known = { of: 'gain', standardUncertainty: 0.03, distribution: 'normal' } as const;
    expect(corrected({ gain: 1.2, offset: 0 }).gaps).toContain('correction');
    const said = corrected({ gain: 1.2, offset: 0, knownTo: known });
    expect(said.gaps).not.toContain('correction');
    const row = said.rows.find(({ cause }) => cause === 'correction of the wind');
    expect(row!.contribution / said.value).toBeCloseTo(0.09, 3);
  });

  it('several corrections, one after the other, each move the value as it does', () => {
    const lines = [
      { gain: 1.5, offset: 0.2, knownTo: LIMITS },
      { gain: 0.8, offset: -0.1, knownTo: { ...LIMITS, of: 'offset' as const } },
      { gain: 2, offset: 0.4 },
    ];
    const through = (all: readonly { gain: number; offset: number }[], v: number) =>
      all.reduce((value, { gain, offset }) => gain * value + offset, v);
    const value = through(lines, 3);
    expect(through([asOne(lines)], 3)).toBeCloseTo(value, 12);
    const small = 1e-6;
    const [first, second, ...none] = errorsOf(lines);
    expect(none).toEqual([]);
    const wrongGain = through([{ ...lines[0]!, gain: 1.5 * (1 + small) }, ...lines.slice(1)], 3);
    expect((first!.effect.gain * value + first!.effect.offset) * small).toBeCloseTo(wrongGain - value, 12);
    const wrongOffset = through(lines.with(1, { ...lines[1]!, offset: -0.1 + small }), 3);
    expect((second!.effect.gain * value + second!.effect.offset) * small).toBeCloseTo(wrongOffset - value, 12);
  });

  it('says that nobody knows how well the correction is known', () => {
    const unknown = { id: 'rig', instrument: UNKNOWN_INSTRUMENT };
    expect(budgetOf(trial, unknown)!.gaps).not.toContain('correction');
    expect(budgetOf(correctedTrial({ current_A: { gain: 2, offset: 0 } }), unknown)!.gaps).toContain('correction');
  });
});
