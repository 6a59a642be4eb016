import { describe, expect, it } from 'vitest';
import { generatorReadingsOf, lampReadingsOf } from '#core/experiment/readings-of-trials.ts';
import type { ShownTrial } from '#core/experiment/trial.ts';
import { NOTHING_SAID } from '#core/rotor/said-rig.ts';
import { ROTOR_AND_AIR } from '../../support/budgets.ts';
import { trialOf } from '../web/fixtures.ts';

const measured = (value: number) => ({ value, standardUncertainty: 0.001, degreesOfFreedom: 20 });

function read(id: number, volts: number, amperes: number, more: Partial<ShownTrial> = {}): ShownTrial {
  const values = { voltage_V: measured(volts), current_A: measured(amperes), windSpeed_mps: null, rotorSpeed_radps: null };
  return trialOf(id, 1000 * volts * amperes, { ...values, factors: {}, ...more });
}

describe('the lamp’s readings', () => {
  it('are voltage and current of every trial that turned and counts', () => {
    const trials = [
      read(1, 1, 0.1),
      read(2, 2, 0.15, { struck: true }),
      read(3, 0, 0, { rotorStill: true }),
      read(4, 2, 0.15, { current_A: null }),
      read(5, -2.5, 0.16),
      read(6, 2.6, 0.17, { recorded: false }),
    ];
    expect(lampReadingsOf(trials)).toEqual({
      readings: { steps: [{ voltage_V: 1, current_A: 0.1 }, { voltage_V: 2.5, current_A: 0.16 }] },
      trialIds: [1, 5],
      passedOver: 0,
    });
  });
  it('are none without trials, and where the plan sets different loads', () => {
    expect(lampReadingsOf([])).toBe('no trials');
    expect(lampReadingsOf([read(1, 1, 0.1, { factors: { load_Ohm: 10 } })])).toBe('load varied');
  });
});

describe('the generator’s load steps', () => {
  const loaded = (id: number, load_Ohm: number, more: Partial<ShownTrial> = {}) =>
    read(id, 2 / id, (2 / id) / load_Ohm, { factors: { load_Ohm }, ...more });

  it('are the trials at different loads, the speed being free to fall', () => {
    const found = generatorReadingsOf([loaded(1, 50), loaded(2, 20)], null);
    expect(found).toMatchObject({ readings: { speed: 'free', steps: [{ rotorSpeed_radps: null, voltage_V: 2 }, { voltage_V: 1 }] }, trialIds: [1, 2] });
  });
  it('are of one setting in one wind, where nobody has read the speed', () => {
    const wind = (value: number) => ({ windSpeed_mps: measured(value) });
    const trials = [
      loaded(1, 50, wind(4)),
      loaded(2, 20, wind(4.05)),
      loaded(3, 10, wind(3)),
      loaded(4, 10, { factors: { load_Ohm: 10, angle_deg: 40 }, ...wind(4) }),
    ];
    expect(generatorReadingsOf(trials, null)).toMatchObject({ trialIds: [1, 2], passedOver: 2 });
  });
  it('are of any setting with the speed read', () => {
    const turning = (id: number, load_Ohm: number, value: number) =>
      loaded(id, load_Ohm, { rotorSpeed_radps: measured(value), factors: { load_Ohm, angle_deg: 10 * id } });
    expect(generatorReadingsOf([turning(1, 50, 150), turning(2, 20, 90), loaded(3, 5)], null)).toMatchObject({
      readings: { speed: 'read', steps: [{ rotorSpeed_radps: 150 }, { rotorSpeed_radps: 90 }] },
      passedOver: 1,
    });
  });
  it('are of any setting with the speed by the ripple, but never by the generator itself', () => {
    const heard = (id: number, frequency_Hz: number) =>
      read(id, 2, 0.1, {
        ripple: { sampleRate_Hz: 500, lines: [{ frequency_Hz, standardUncertainty_Hz: 0.2, amplitude_V: 0.01 }], isBelowStep: false },
        windSpeed_mps: measured(4),
      });
    const rig = { ...NOTHING_SAID, ripplesPerTurn: 6, emfConstant_Vsprad: 0.02, windingResistance_Ohm: 10 };
    const said = { ...ROTOR_AND_AIR, rig };
    const [one, other] = [heard(1, 93), heard(2, 71)];
    expect(generatorReadingsOf([one, other], said)).toMatchObject({
      readings: { speed: 'read', steps: [{ rotorSpeed_radps: expect.closeTo(31 * Math.PI, 9) as number }, {}] },
    });
    expect(generatorReadingsOf([read(1, 2, 0.1), read(2, 1, 0.08)], said)).toBe('one load');
  });
  it('are none where the load never changed', () => {
    expect(generatorReadingsOf([], null)).toBe('no trials');
    expect(generatorReadingsOf([read(1, 1, 0.1), read(2, 2, 0.15)], null)).toBe('one load');
  });
});
