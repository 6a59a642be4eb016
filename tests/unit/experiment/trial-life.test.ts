import { describe, expect, it } from 'vitest';
import { closeTrial, isRecorded } from '#core/experiment/trial-life.ts';
import type { Plateau } from '#core/signal/plateau.ts';

function plateau(length_s: number, relativeUncertainty = 0.005, change: Partial<Plateau> = {}): Plateau {
  const power = { mean: 0.25, degreesOfFreedom: 12, effectiveSampleSize: 13 };
  return {
    start_s: 100,
    end_s: 100 + length_s,
    declared_s: 103,
    sampleCount: 50 * length_s,
    rotorStill: false,
    estimates: { power_W: { ...power, standardUncertainty: 0.25 * relativeUncertainty } },
    ...change,
  };
}

describe('isRecorded', () => {
  it('waits for the recording length', () => {
    expect(isRecorded(plateau(4.9), 104.9)).toBe(false);
    expect(isRecorded(plateau(5), 105)).toBe(true);
  });

  it('waits longer while power is not known to 1 %', () => {
    expect(isRecorded(plateau(9, 0.012), 109)).toBe(false);
    expect(isRecorded(plateau(9, 0.009), 109)).toBe(true);
  });

  it('does not wait beyond the longest recording', () => {
    expect(isRecorded(plateau(15, 0.05), 115)).toBe(true);
  });

  it('does not log at the very moment of declaration', () => {
    expect(isRecorded(plateau(8, 0.005, { declared_s: 107.5 }), 108)).toBe(false);
    expect(isRecorded(plateau(8, 0.005, { declared_s: 107 }), 108)).toBe(true);
  });

  it('judges a rotor that stands still by length alone: its power is zero', () => {
    expect(isRecorded(plateau(5, 3, { rotorStill: true }), 105)).toBe(true);
  });

  it('judges by voltage where there is no current channel', () => {
    const estimates = (u: number): Plateau['estimates'] => ({
      voltage_V: { mean: 2, standardUncertainty: u, degreesOfFreedom: 9, effectiveSampleSize: 10 },
    });
    expect(isRecorded(plateau(6, 0, { estimates: estimates(0.03) }), 106)).toBe(false);
    expect(isRecorded(plateau(6, 0, { estimates: estimates(0.01) }), 106)).toBe(true);
  });
});

describe('closeTrial', () => {
  it('keeps a brief plateau out of the trials', () => {
    expect(closeTrial(plateau(4.5), 'changed', false)).toBeNull();
  });

  it('makes a logged trial final, with the edges that the detector settled on', () => {
    const trial = closeTrial(plateau(12), 'changed', true);
    expect(trial).toMatchObject({ state: 'final', recorded: true, start_s: 100, end_s: 112 });
    expect(trial?.power_W).toEqual({ value: 0.25, standardUncertainty: 0.00125, degreesOfFreedom: 12 });
    expect(trial?.voltage_V).toBeNull();
  });

  it('keeps what was recorded long enough though never known to 1 %', () => {
    expect(closeTrial(plateau(9, 0.03), 'changed', false)).toMatchObject({ state: 'final', recorded: true });
  });

  it('never calls a plateau good that the link cut', () => {
    expect(closeTrial(plateau(30), 'interrupted', true)).toMatchObject({ state: 'interrupted', recorded: true });
    expect(closeTrial(plateau(3), 'interrupted', false)).toMatchObject({ state: 'interrupted', recorded: false });
  });
});
