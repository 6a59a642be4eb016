import { NO_FITS } from '#core/rotor/fitting/rig-fits.ts';
import { describe, expect, it } from 'vitest';
import { budgetAnswer } from '#core/experiment/budget/answer.ts';
import { budgetOf, BudgetSchema } from '#core/experiment/budget/budget.ts';
import { differenceOf, meanOfLevel, ratioOf } from '#core/experiment/budget/contrast.ts';
import { rigOf, withInstrument, type KnownInstrument } from '#core/experiment/budget/known-instruments.ts';
import { keyedTrial } from '#core/experiment/keyed.ts';
import { causesOf } from '#core/instrument/causes.ts';
import { instrumentInUse, NOTHING_ANNOUNCED } from '#core/instrument/in-use.ts';
import { UNKNOWN_INSTRUMENT, type Instrument, type Stated } from '#core/instrument/instrument.ts';
import { meterUncertainty } from '#core/instrument/meter.ts';
import { keyIn, METERS } from '../../support/keyed-readings.ts';
import { budgetedTrial, DIVIDER_AND_SHUNT } from '../../support/budgets.ts';

const RIG = { id: 'rig', instrument: DIVIDER_AND_SHUNT };
const UNKNOWN = { id: 'rig', instrument: UNKNOWN_INSTRUMENT };
const stated = (gainUncertainty: number, offsetUncertainty: number | null): Stated => {
  return { kind: 'stated', gainUncertainty, offsetUncertainty };
};
const gainOnly = (gain: number) => {
  return { id: 'rig', instrument: { voltage: stated(gain, 0), current: stated(gain, 0) } };
};
const zeroOnly: Instrument = { voltage: stated(0, 0.01), current: stated(0, 0.001) };

describe('a budget', () => {
  const trial = budgetedTrial({ v: 3, i: 0.05, u_V: 0.003, u_A: 5e-5, u_W: 6e-4 });

  it('has shares that make one, the largest first, and fits its schema', () => {
    const budget = budgetOf(trial, RIG)!;
    expect(budget.rows.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12);
    const contributions = budget.rows.map(({ contribution_W }) => contribution_W);
    expect(contributions).toEqual([...contributions].sort((a, b) => b - a));
    expect(Math.hypot(budget.random_W, budget.common_W)).toBeCloseTo(budget.standardUncertainty_W, 12);
    expect(BudgetSchema.parse(JSON.parse(JSON.stringify(budget)))).toEqual(budget);
  });

  it('of an unknown instrument is the scatter, and says what is missing', () => {
    const budget = budgetOf(trial, UNKNOWN)!;
    expect(budget.gaps).toEqual(['voltage', 'current']);
    expect(budget.standardUncertainty_W).toBeCloseTo(6e-4, 7);
    expect(budget.degreesOfFreedom).toBeCloseTo(30, 0);
    expect(budget.common_W).toBe(0);
  });

  it('takes a common reference twice, because it moves voltage and current', () => {
    const { rows, value_W } = budgetOf(trial, RIG)!;
    const reference = rows.find(({ cause }) => cause === 'reference of the converter');
    expect(reference?.channel).toBe('both');
    expect((reference?.contribution_W ?? NaN) / value_W).toBeCloseTo((2 * 0.05) / Math.sqrt(3), 12);
  });

  it('takes what is stated of both gains for one error', () => {
    const { value_W, common_W } = budgetOf(trial, gainOnly(0.01))!;
    expect(common_W / value_W).toBeCloseTo(0.02, 12);
  });

  it('is no different for a rig whose wires are the wrong way round', () => {
    const turned = budgetOf(budgetedTrial({ v: -3, i: -0.05, u_V: 0.003, u_A: 5e-5, u_W: 6e-4 }), RIG)!;
    expect(turned.standardUncertainty_W).toBe(budgetOf(trial, RIG)!.standardUncertainty_W);
  });

  it('counts a step of the converter only where the scatter does not show it', () => {
    const steps = (u_V: number) =>
      budgetOf(budgetedTrial({ v: 3, i: 0.05, u_V, u_W: 6e-4 }), RIG)!.rows.filter(
        ({ cause, channel }) => cause === 'step of the reading' && channel === 'voltage',
      );
    expect(steps(0)[0]?.standardUncertainty).toBeCloseTo((3 * 5) / 1024 / Math.sqrt(12), 12);
    expect(steps(0.01)).toEqual([]);
  });

  it('needs power', () => {
    expect(budgetOf({ ...trial, power_W: null }, RIG)).toBeNull();
    const without = { ...trial, power_W: null, recordingId: 1, factors: {}, windSpeed_mps: null, rotorSpeed_radps: null, ripple: null };
    expect(budgetAnswer(without, { instruments: [], rotorAndAir: null, airs: [], fits: NO_FITS })).toEqual({
      budget: null,
      check: null,
      coefficient: { kind: 'none', why: 'rotor not described' },
      speed: { speed: null, noRipple: 'not heard', sampleRate_Hz: null },
    });
  });

  it('becomes smaller when a zero is taken', () => {
    const { voltage, current } = DIVIDER_AND_SHUNT;
    if (voltage?.kind !== 'divider' || current?.kind !== 'shunt') throw new Error('another rig');
    const zeroed = { voltage: { ...voltage, isZeroed: true }, current: { ...current, isZeroed: true } };
    const weak = budgetedTrial({ v: 0.3, i: 0.005, u_W: 1e-5 });
    const [built, taken] = [DIVIDER_AND_SHUNT, zeroed].map((instrument) => budgetOf(weak, { id: 'rig', instrument })!);
    expect(taken!.standardUncertainty_W / built!.standardUncertainty_W).toBeLessThan(0.5);
  });
});

describe('a rotor that did not turn', () => {
  const still = { ...budgetedTrial({ v: 0, i: 0 }), rotorStill: true };

  it('gives nothing, within what zeros and steps leave', () => {
    const { value_W, standardUncertainty_W, rows } = budgetOf(still, { id: 'rig', instrument: zeroOnly })!;
    expect(value_W).toBe(0);
    expect(standardUncertainty_W).toBeCloseTo(0.01 * 0.001, 12);
    expect(rows.map(({ cause }) => cause)).toEqual(['both at once']);
  });

  it('has what is read meanwhile in its uncertainty', () => {
    const read = { ...budgetedTrial({ v: 0.005, i: 0.002 }), rotorStill: true };
    const budget = budgetOf(read, UNKNOWN)!;
    expect(budget.value_W).toBe(0);
    expect(budget.standardUncertainty_W).toBeCloseTo(0.005 * 0.002, 12);
  });
});

describe('what is common to two trials', () => {
  const a = budgetedTrial({ id: 1, v: 3, i: 0.05 });
  const b = budgetedTrial({ id: 2, v: 2, i: 0.04 });

  it('a gain scales a difference and leaves a ratio alone', () => {
    const [one, other] = [a, b].map((trial) => budgetOf(trial, gainOnly(0.01))!);
    const difference = differenceOf([one!], [other!]);
    expect(difference.standardUncertainty / difference.value).toBeCloseTo(0.02, 12);
    expect(ratioOf([one!], [other!])!.standardUncertainty).toBeLessThan(1e-12);
  });

  it('a zero cancels in neither', () => {
    const [one, other] = [a, b].map((trial) => budgetOf(trial, { id: 'rig', instrument: zeroOnly })!);
    // d(V·I) = I·dV + V·dI, for each zero by itself.
    const expected = Math.hypot((0.05 - 0.04) * 0.01, (3 - 2) * 0.001);
    expect(differenceOf([one!], [other!]).common).toBeCloseTo(expected, 12);
    expect(ratioOf([one!], [other!])!.standardUncertainty).toBeGreaterThan(1e-3);
  });

  it('of other rigs nothing is common', () => {
    const one = budgetOf(a, gainOnly(0.01))!;
    const elsewhere = budgetOf(a, { ...gainOnly(0.01), id: 'another' })!;
    expect(differenceOf([one], [one]).common).toBe(0);
    expect(differenceOf([one], [elsewhere]).common / one.common_W).toBeCloseTo(Math.SQRT2, 12);
  });

  it('a level of one trial is that trial; a trial and itself differ by chance alone', () => {
    const noisy = budgetOf(budgetedTrial({ v: 3, i: 0.05, u_W: 5e-4 }), RIG)!;
    const mean = meanOfLevel([noisy]);
    expect(mean.standardUncertainty).toBeCloseTo(noisy.standardUncertainty_W, 12);
    expect(mean.expandedUncertainty).toBeCloseTo(noisy.expandedUncertainty_W, 12);
    expect(differenceOf([noisy], [noisy]).standardUncertainty).toBeCloseTo(Math.SQRT2 * noisy.random_W, 12);
  });

  it('a ratio to what can’t be told from nothing is none', () => {
    const nothing = budgetOf(budgetedTrial({ id: 3, v: 0.01, i: 0.0005 }), RIG)!;
    expect(ratioOf([budgetOf(a, RIG)!], [nothing])).toBeNull();
    const ratio = ratioOf([budgetOf(a, RIG)!], [budgetOf(b, RIG)!])!;
    expect(ratio.low).toBeLessThan(ratio.value);
    expect(ratio.high).toBeGreaterThan(ratio.value);
  });
});

describe('keyed readings', () => {
  const { unit: _V, ...voltmeter } = METERS.voltage;
  const { unit: _A, ...ammeter } = METERS.current;
  const derived = keyedTrial(
    keyIn(null, [
      [2.31, 0.0431],
      [2.29, 0.0428],
      [2.33, 0.0433],
    ]),
  );
  const trial = { id: 1, correction: null, ...derived };

  it('have their meters in their uncertainty already: one row, and no gap', () => {
    const budget = budgetOf(trial, UNKNOWN)!;
    expect(budget.rows.map(({ cause }) => cause)).toEqual(['readings and meters']);
    expect(budget.gaps).toEqual([]);
    expect(budget.standardUncertainty_W).toBe(trial.power_W!.standardUncertainty);
  });

  it('are told apart from their meters where those are described, and the sum stays', () => {
    const instrument: Instrument = {
      voltage: { kind: 'meter', meter: voltmeter },
      current: { kind: 'meter', meter: ammeter },
    };
    const budget = budgetOf(trial, { id: 'meters', instrument })!;
    expect(budget.standardUncertainty_W).toBeCloseTo(trial.power_W!.standardUncertainty ?? NaN, 12);
    const ofVoltmeter = budget.rows.find(({ channel }) => channel === 'voltage')!.contribution_W;
    const written = { value: trial.voltage_V!.value, step: 0.01 };
    expect(ofVoltmeter).toBeCloseTo(trial.current_A!.value * meterUncertainty(voltmeter, written), 7);
    expect(budget.degreesOfFreedom / trial.power_W!.degreesOfFreedom).toBeCloseTo(1, 1);
  });
});

describe('whose word on the instruments counts', () => {
  const known = (recordingId: number, said: Instrument, boardId = 'b'): KnownInstrument => {
    return { recordingId, boardId, said, announced: NOTHING_ANNOUNCED };
  };

  it('the board’s on its gain; the operator’s on the zero where the board says nothing', () => {
    const announced = { voltage: stated(0.003, null), current: stated(0.0065, 0.0002) };
    const { voltage, current } = instrumentInUse(DIVIDER_AND_SHUNT, announced);
    expect(voltage).toEqual(stated(0.003, expect.closeTo((2 * 3 * 5) / 1024 / Math.sqrt(3), 12) as number));
    expect(current).toEqual(announced.current);
    expect(causesOf(instrumentInUse(UNKNOWN_INSTRUMENT, announced)).gaps).toEqual(['zero of the voltage']);
  });

  it('what is said later holds for the session’s earlier recordings with that board', () => {
    let list: readonly KnownInstrument[] = [];
    for (const one of [known(1, UNKNOWN_INSTRUMENT), known(2, UNKNOWN_INSTRUMENT, 'other'), known(3, DIVIDER_AND_SHUNT)]) {
      list = withInstrument(list, one);
    }
    const trial = (recordingId: number) => ({ recordingId, basis: 'settled' as const });
    expect(rigOf(trial(1), list)).toEqual({ id: 'rig 1', instrument: DIVIDER_AND_SHUNT });
    expect(rigOf(trial(3), list).id).toBe('rig 1');
    expect(rigOf(trial(2), list)).toEqual({ id: 'rig 2', instrument: UNKNOWN_INSTRUMENT });
    expect(rigOf({ recordingId: 3, basis: 'keyed' }, list).instrument).toEqual(UNKNOWN_INSTRUMENT);
  });

  it('a recording that begins with nothing said takes nothing back; who takes it back does', () => {
    const told = withInstrument([], known(1, DIVIDER_AND_SHUNT));
    const begun = withInstrument(told, known(2, UNKNOWN_INSTRUMENT));
    expect(begun[0]?.said).toEqual(DIVIDER_AND_SHUNT);
    const back = withInstrument(withInstrument(begun, known(2, DIVIDER_AND_SHUNT)), known(2, UNKNOWN_INSTRUMENT));
    expect(back.map(({ said }) => said)).toEqual([UNKNOWN_INSTRUMENT, UNKNOWN_INSTRUMENT]);
    expect(withInstrument(told, known(1, DIVIDER_AND_SHUNT))).toBe(told);
  });
});
