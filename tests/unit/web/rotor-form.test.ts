/** What is typed of rotor and air, and what the page says of the wind's power. */
import { describe, expect, it } from 'vitest';
import { coefficientOfTrial } from '#core/experiment/budget/coefficient-of-trial.ts';
import { budgetOf } from '#core/experiment/budget/budget.ts';
import { ANEMOMETERS } from '#core/rotor/wind/anemometer.ts';
import type { RotorAndAir } from '#core/rotor/wind/rotor-and-air.ts';
import { NOTHING_SAID } from '#core/rotor/said-rig.ts';
import {
  EMPTY_ROTOR_FORM,
  heardText,
  readRotorForm,
  ringRadii_mm,
  rotorFormOf,
  type RotorForm,
  withoutFields,
} from '../../../web/budget/rotor-form.ts';
import { shownCoefficient } from '../../../web/model/coefficient.ts';
import { CATALOGUES } from '../../../web/words/languages.ts';
import { budgetedTrial, DIVIDER_AND_SHUNT, ROTOR_AND_AIR } from '../../support/budgets.ts';

const TYPED: RotorForm = {
  ...EMPTY_ROTOR_FORM,
  radius: '200',
  hub: '30',
  temperature: '21,5',
  pressure: '1013.25',
  altitude: '',
  humidity: '45',
  anemometer: 'vane',
  rings: '4,2 3.9  3,1',
  atPlace: '4',
};
const SAID: RotorAndAir = {
  radius_m: 0.2,
  hubRadius_m: 0.03,
  air: { temperature_degC: 21.5, pressure_Pa: 101_325, altitude_m: null, relativeHumidity: 0.45 },
  anemometer: ANEMOMETERS.vane,
  traverse: { rings_mps: [4.2, 3.9, 3.1], atPlace_mps: 4 },
};

describe('the form for rotor and air', () => {
  it('reads the units of the bench, with points and commas', () => {
    expect(readRotorForm(TYPED, false)).toEqual({ described: SAID });
  });

  it('needs the radius alone; where blade length is changed, the hub alone', () => {
    const only = { ...EMPTY_ROTOR_FORM, radius: '200' };
    expect(readRotorForm(only, false)).toMatchObject({ described: { radius_m: 0.2, hubRadius_m: 0, traverse: null } });
    expect(readRotorForm(only, true)).toEqual({ problems: { hub: { kind: 'needed' } } });
    expect(readRotorForm({ ...EMPTY_ROTOR_FORM, hub: '30' }, true)).toMatchObject({ described: { radius_m: null } });
    expect(readRotorForm(EMPTY_ROTOR_FORM, false)).toEqual({ problems: { radius: { kind: 'needed' } } });
  });

  it.each<[string, Partial<RotorForm>, object]>([
    ['a radius in micrometres', { radius: '200000' }, { radius: { kind: 'between', low: 5, high: 2000 } }],
    ['a word', { temperature: 'warm' }, { temperature: { kind: 'number' } }],
    ['an oven', { temperature: '200' }, { temperature: { kind: 'between', low: -40, high: 60 } }],
    ['pressure in Pa', { pressure: '101325' }, { pressure: { kind: 'between', low: 500, high: 1100 } }],
    ['pressure and height', { pressure: '1013', altitude: '200' }, { altitude: { kind: 'oneAir' } }],
    ['a jet inside the hub', { jet: '40' }, { jet: { kind: 'jet' } }],
    ['a hub as large as the rotor', { hub: '200' }, { hub: { kind: 'hub' } }],
    ['one ring', { rings: '4' }, { rings: { kind: 'rings' } }],
    ['rings without the usual place', { atPlace: '' }, { atPlace: { kind: 'together' } }],
    ['half a blade', { blades: '2.5' }, { blades: { kind: 'whole' } }],
    ['blades wider than the disc', { blades: '6', chord: '200' }, { chord: { kind: 'disc' } }],
    ['half a lamp', { lampVoltage: '2.5' }, { lampCurrent: { kind: 'together' } }],
    ['two loads', { loadResistance: '50', lampVoltage: '3', lampCurrent: '0.1' }, { loadResistance: { kind: 'oneLoad' } }],
    ['the usual place without rings', { rings: '' }, { rings: { kind: 'together' } }],
  ])('asks back %s', (_, change, problems) => {
    expect(readRotorForm({ ...TYPED, ...change }, false)).toEqual({ problems });
  });

  it('reads what the prediction needs, all of it or a part', () => {
    const typed = {
      ...TYPED,
      ...{ blades: '3', chord: '50', angle: '20', wind: '4', jet: '500', emf: '2,094395', winding: '10' },
      ...{ friction: '1', lampVoltage: '2,5', lampCurrent: '0.2' },
    };
    const read = readRotorForm(typed, false);
    expect(read).toMatchObject({
      described: {
        rig: {
          blades: 3,
          chord_m: 0.05,
          angle_deg: 20,
          windSpeed_mps: 4,
          jetRadius_m: 0.25,
          windingResistance_Ohm: 10,
          staticTorque_Nm: 0.001,
          load: { kind: 'lamp', ratedVoltage_V: 2.5, ratedCurrent_A: 0.2 },
        },
      },
    });
    if ('problems' in read) throw new Error('refused');
    // 1000 turns a minute are 104.72 rad/s.
    expect(read.described.rig?.emfConstant_Vsprad).toBeCloseTo(0.02, 7);
    expect(readRotorForm(rotorFormOf(read.described, String), false)).toMatchObject({ described: { rig: { blades: 3, jetRadius_m: 0.25 } } });
    const some = readRotorForm({ ...TYPED, loadResistance: '50' }, false);
    expect(some).toMatchObject({ described: { rig: { ...NOTHING_SAID, load: { kind: 'resistor', resistance_Ohm: 50 } } } });
  });

  it('leaves out what the plan sets, so that it stands in nobody’s way', () => {
    const form = withoutFields({ ...TYPED, lampVoltage: '2.5', angle: '200' }, new Set(['angle', 'lampVoltage']));
    expect(readRotorForm(form, false)).toEqual({ described: SAID });
  });

  it('shows again what the session holds', () => {
    const comma = (decimal: string): string => decimal.replace('.', ',');
    expect(readRotorForm(rotorFormOf(SAID, comma), false)).toEqual({ described: SAID });
    expect(rotorFormOf(SAID, comma).temperature).toBe('21,5');
  });

  it('shows what the board says of the air, in the units of the bench', () => {
    const airs = [{ temperature_degC: -3.25, pressure_Pa: 96_212, relativeHumidity: null }];
    expect(heardText('temperature', airs)).toBe('-3.25');
    expect(heardText('pressure', airs)).toBe('962.1');
    expect([heardText('humidity', airs), heardText('radius', airs), heardText('pressure', [])]).toEqual([null, null, null]);
  });

  it('says where to hold the anemometer: √((2i − 1)/2n) of the radius', () => {
    expect(ringRadii_mm({ ...EMPTY_ROTOR_FORM, radius: '200' })).toEqual([82, 141, 183]);
    expect(ringRadii_mm({ ...EMPTY_ROTOR_FORM, radius: '200', rings: '4 4 4 3 3' })).toHaveLength(5);
    expect(ringRadii_mm(EMPTY_ROTOR_FORM)).toBeNull();
  });
});

describe('what the page says of the wind', () => {
  const shown = (amperes: number, said: RotorAndAir | null = ROTOR_AND_AIR) => {
    const trial = {
      ...budgetedTrial({ v: 3, i: amperes, u_W: 0.001 }),
      factors: {},
      windSpeed_mps: { value: 4, standardUncertainty: 0.02, degreesOfFreedom: 20 },
      rotorSpeed_radps: { value: 20, standardUncertainty: 0.1, degreesOfFreedom: 20 },
    };
    const budget = budgetOf(trial, { id: 'rig', instrument: DIVIDER_AND_SHUNT });
    return shownCoefficient(coefficientOfTrial(trial, budget, said), CATALOGUES.en);
  };
  const plain = (text: string | null): string => (text ?? '').replaceAll('\u202f', ' ');

  it('gives the share to two digits of its uncertainty, beside Betz and the ideal rotor', () => {
    const { result, alarm, sentences, missing, scale } = shown(0.05);
    expect(plain(result)).toMatch(/^3\.\d\d? ± 0\.\d\d? % of the wind’s power$/);
    expect(alarm).toBeNull();
    const said = plain(sentences.join(' '));
    expect(said).toContain('4.9 W');
    expect(said).toContain('59.3 %');
    // λ = 1: 0.4155 (Glauert).
    expect(said).toContain('41.5 %');
    expect(plain(missing)).toContain('whether all of the rotor gets the wind that is read');
    expect(scale!.low).toBeLessThan(scale!.value);
  });

  it('says that more than 16/27 is impossible, and where to look', () => {
    const { alarm, scale } = shown(50);
    expect(plain(alarm)).toContain('More than 59.3 % is impossible');
    expect(alarm).toContain('mA or A');
    expect([scale!.value, scale!.high]).toEqual([1, 1]);
  });

  it('asks for the rotor while nobody has described it', () => {
    expect(shown(0.05, null)).toMatchObject({ result: null, scale: null, sentences: [expect.stringContaining('how large') as string] });
  });
});
