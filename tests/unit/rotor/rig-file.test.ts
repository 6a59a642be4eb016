import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { USUAL_UNCERTAINTY } from '#core/rotor/doubt.ts';
import { FIELDS } from '#core/rotor/rig-fields.ts';
import { readRig } from '#core/rotor/rig-file.ts';

type Json = Record<string, unknown>;

/** A rig with a lamp, with parts replaced or (undefined) taken out. */
function fileWith(change: Json): Json {
  const file: Json = {
    air: { temperature_degC: 20, pressure_Pa: 101325, relativeHumidity: 0.5 },
    windSpeed_mps: 4,
    rotor: { radius_m: 0.2, hubRadius_m: 0.03, chord_m: 0.05, blades: 3 },
    angles_deg: [15, 30],
    generator: { k_Vsprad: 0.02, resistance_Ohm: 10, staticTorque_Nm: 0.001, runningTorque_Nm: 0.0005 },
    load: { kind: 'lamp', ratedVoltage_V: 2.5, ratedCurrent_A: 0.2 },
  };
  const parts = Object.entries(change).map(([key, value]): [string, unknown] => {
    const before = file[key];
    return typeof before === 'object' && !Array.isArray(before) && typeof value === 'object'
      ? [key, value === null ? null : { ...before, ...value }]
      : [key, value];
  });
  return JSON.parse(JSON.stringify({ ...file, ...Object.fromEntries(parts) })) as Json;
}

function faultsOf(change: Json): readonly string[] {
  const reading = readRig(fileWith(change));
  return 'faults' in reading ? reading.faults : [];
}

describe("a rig's file", () => {
  it('is read with flat blades, a wide jet and the usual uncertainties where nothing else is said', () => {
    const reading = readRig(fileWith({}));
    expect(reading).toMatchObject({
      rig: {
        rig: { rotor: { camber: 0, jetRadius_m: null }, generator: { emfConstant_Vsprad: 0.02 } },
        angles_deg: [15, 30],
        uncertainty: USUAL_UNCERTAINTY,
      },
    });
    expect(readRig(fileWith({ uncertainty: { friction: 0.5 } }))).toMatchObject({
      rig: { uncertainty: { ...USUAL_UNCERTAINTY, friction: 0.5 } },
    });
  });

  it.each<[string, Json, string]>([
    ['missing', { windSpeed_mps: undefined }, 'windSpeed_mps is missing; expected: metres per second, 0.1 to 40.'],
    ['negative', { rotor: { chord_m: -0.05 } }, 'rotor.chord_m is -0.05; expected: metres, 0.001 to 1.'],
    ['no number', { windSpeed_mps: '4' }, 'windSpeed_mps is "4"; expected: metres per second, 0.1 to 40.'],
    ['half a blade', { rotor: { blades: 2.5 } }, 'rotor.blades is 2.5; expected: a whole number, 1 to 24.'],
    ['400 blades', { rotor: { blades: 400 } }, 'rotor.blades is 400; expected: a whole number, 1 to 24.'],
    ['an oven', { air: { temperature_degC: 200 } }, 'air.temperature_degC is 200; expected: degrees Celsius, -40 to 60.'],
    ['pressure and height', { air: { altitude_m: 500 } }, 'air.altitude_m and air.pressure_Pa are both given; one follows from the other. Leave one of them out.'],
    ['neither of them', { air: { pressure_Pa: undefined } }, 'air.pressure_Pa is missing; expected: pascals (1013 hPa are 101300), 50000 to 110000. Or air.altitude_m in its place: metres above the sea, -500 to 5500.'],
    ['a height in space', { air: { pressure_Pa: undefined, altitude_m: 1e5 } }, 'air.altitude_m is 100000; expected: metres above the sea, -500 to 5500.'],
    ['no load', { load: undefined }, 'load is missing; expected: an object with kind "resistor" and resistance_Ohm, or with kind "lamp", ratedVoltage_V and ratedCurrent_A.'],
    ['humidity in per cent', { air: { relativeHumidity: 50 } }, 'air.relativeHumidity is 50; expected: a fraction (50 % is 0.5), 0 to 1.'],
    ['an angle beyond edge-on', { angles_deg: [15, 120] }, 'angles_deg[1] is 120; expected: degrees from the rotor plane, 0 to 90.'],
    ['no angles', { angles_deg: [] }, 'angles_deg is []; expected: a list of 1 to 91: degrees from the rotor plane, 0 to 90.'],
    ['no generator', { generator: null }, 'generator is null; expected: an object with k_Vsprad, resistance_Ohm, staticTorque_Nm, runningTorque_Nm.'],
    ['an unknown load', { load: { kind: 'bulb' } }, 'load.kind is "bulb"; expected: "resistor" or "lamp".'],
    ['another unit', { rotor: { radius_m: undefined, radius_cm: 20 } }, 'rotor.radius_cm is not known; expected: rotor.radius_m, metres, 0.01 to 3.'],
    ['a slip of the pen', { load: { ratedCurrent_A: undefined, ratedCurent_A: 0.2 } }, 'load.ratedCurent_A is not known; expected: load.ratedCurrent_A, amperes, 0.001 to 20.'],
    ['a name of its own', { colour: 'red' }, 'colour is not known; known here: air, windSpeed_mps, rotor, angles_deg, generator, load, vary, uncertainty.'],
    ['a hub beyond the tip', { rotor: { hubRadius_m: 0.3 } }, 'rotor.hubRadius_m is 0.3; the hub ends where the blades begin, well inside rotor.radius_m, 0.2.'],
    ['blades that overlap', { rotor: { blades: 20 } }, 'rotor.blades is 20; so many blades of 0.05 m would cover more than the whole disc. Expected: fewer, or a smaller rotor.chord_m.'],
    ['more friction turning than standing', { generator: { runningTorque_Nm: 0.01 } }, 'generator.runningTorque_Nm is 0.01; friction while turning is at most generator.staticTorque_Nm, 0.001.'],
  ])('with %s is refused, naming the field and what is expected', (_, change, sentence) => {
    expect(faultsOf(change)).toEqual([sentence]);
  });

  it.each([[null], [[]], ['rig'], [3], [undefined]])('that is %j is refused', (data) => {
    const reading = readRig(data);
    expect('faults' in reading && reading.faults[0]).toContain('expected: an object with air, windSpeed_mps');
  });

  it('may say the height above the sea in place of the pressure: ISO 2533 at 1500 m', () => {
    const reading = readRig(fileWith({ air: { pressure_Pa: undefined, altitude_m: 1500 } }));
    const atPressure = readRig(fileWith({ air: { pressure_Pa: 84555.99 } }));
    if ('faults' in reading || 'faults' in atPressure) throw new Error('refused');
    expect(reading.rig.rig.airDensity_kgpm3).toBeCloseTo(atPressure.rig.rig.airDensity_kgpm3, 6);
  });

  it('names all faults at once', () => {
    expect(faultsOf({ windSpeed_mps: 0, rotor: { blades: 0 }, load: { kind: 'lamp', ratedVoltage_V: 0 } })).toHaveLength(3);
  });
});

describe('docs/rotor.md', () => {
  const document = readFileSync(join(resolve(import.meta.dirname, '../../..'), 'docs/rotor.md'), 'utf8');

  it('shows a rig that is read', () => {
    const [, example = ''] = /```json\n([^`]+)```/.exec(document) ?? [];
    expect(readRig(JSON.parse(example))).toMatchObject({ rig: { angles_deg: [15, 30, 45, 60, 90] } });
  });

  it('names every field', () => {
    const names = Object.keys(FIELDS).map((name) => name.replace('[]', '').split('.').at(-1)!);
    expect(names.filter((name) => !document.includes(name))).toEqual([]);
  });
});
