/** `stillmark fit` as a person meets it: what it prints, and the exit code. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readRig } from '#core/rotor/rig-file.ts';
import { runCommand } from '../../support/server-process.ts';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'stillmark-fit-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function fit(rows: readonly string[], ...more: string[]) {
  const file = join(folder, 'readings.csv');
  writeFileSync(file, rows.join('\n'));
  return runCommand('fit', file, ...more);
}

/** k 0.02 V·s/rad behind 10 Ω, to 1 mV. */
const SPUN = ['rotorSpeed_rpm,voltage_V,current_mA', '1500,2.941,20', '1200,2.014,50', '900,1.184,70', '700,0.667,80'];
const RIG = {
  air: { temperature_degC: 20, pressure_Pa: 101325, relativeHumidity: 0.5 },
  windSpeed_mps: 4,
  rotor: { radius_m: 0.2, hubRadius_m: 0.03, chord_m: 0.05, blades: 3 },
  angles_deg: [15],
  generator: { k_Vsprad: 1, resistance_Ohm: 1, staticTorque_Nm: 0.001, runningTorque_Nm: 0.0005 },
  load: { kind: 'resistor', resistance_Ohm: 50 },
};

describe('stillmark fit', () => {
  it('gives the generator’s figures as a rig’s file takes them', async () => {
    const { code, stdout, stderr } = await fit(SPUN, '--part', 'generator', '--json');
    expect([code, stderr]).toEqual([0, '']);
    const { rig, gaps } = JSON.parse(stdout) as { rig: { generator: Record<string, number>; uncertainty: object }; gaps: string[] };
    expect(rig.generator['k_Vsprad']).toBeCloseTo(0.02, 4);
    expect(rig.generator['resistance_Ohm']).toBeCloseTo(10, 1);
    expect(gaps).toEqual([]);
    expect(readRig({ ...RIG, generator: { ...RIG.generator, ...rig.generator }, uncertainty: rig.uncertainty })).toHaveProperty('rig');
  });

  it('gives a lamp’s law, decimal commas and all, and leaves the cold reading out', async () => {
    // I = 0.2 A (V/2.5 V)^0.55: Fink and Beaty's exponent.
    const rows = ['voltage_V;current_mA', '2,5;200,0', '1,5;151,0', '1;120,8', '0,5;82,5', '0,1;40'];
    const { code, stdout } = await fit(rows, '--part', 'lamp');
    expect(code).toBe(0);
    expect(stdout).toMatch(/power of 0\.5[45]/);
    expect(stdout).toContain('1 left out: too cold');
    expect(stdout).toMatch(/"load": \{"kind":"lamp","ratedVoltage_V":2.5,/);
    const found = JSON.parse((await fit(rows, '--part', 'lamp', '--json')).stdout) as { rig: { load: object } };
    expect(readRig({ ...RIG, load: found.rig.load })).toHaveProperty('rig');
  });

  it('takes a reversed cable for what it is, and refuses a column with both signs', async () => {
    const reversed = SPUN.map((row) => row.replace(/,(\d+)$/, ',-$1'));
    const [there, back] = [await fit(SPUN, '--part', 'generator'), await fit(reversed, '--part', 'generator')];
    expect(back.stdout).toBe(there.stdout);
    const zero = await fit([...SPUN, '1500,3.141,-0.2'], '--part', 'generator');
    expect(zero.code).toBe(0);
    const mixed = await fit([...SPUN.slice(0, -1), '-700,0.667,80'], '--part', 'generator');
    expect(mixed.code).toBe(2);
    expect(mixed.stderr).toContain('line 5: the speed has another sign than the largest one. Put it right');
  });

  it('says what --speed takes', async () => {
    const { code, stderr } = await fit(SPUN, '--part', 'generator', '--speed', 'slow');
    expect(code).toBe(2);
    expect(stderr).toContain('--speed takes held or free, not "slow"');
  });

  it('claims no certainty from readings exactly on a line, and reads no column for another', async () => {
    const exact = ['rotorSpeed_rpm,voltage_V,current_mA', '1000,2.0,0', '900,1.7,20', '800,1.4,40'];
    const { stdout } = await fit(exact, '--part', 'generator');
    expect(stdout).toContain('constant 0.0191 V·s/rad\n');
    expect(stdout).not.toContain('±');
    const twice = await fit(['voltage_V,voltage_mV,current_mA', '1,1000,20'], '--part', 'lamp');
    expect(twice.code).toBe(2);
    expect(twice.stderr).toContain('line 1: voltage_V and voltage_mV both give the same quantity');
  });

  it('says what can’t be told: of a speed that fell with the load only the most the winding has', async () => {
    const rows = ['voltage_V,current_mA,struck', '2.40,48,false', '1.50,120,false', '9,1,true'];
    const { code, stdout } = await fit(rows, '--part', 'generator', '--speed', 'free');
    expect(code).toBe(0);
    expect(stdout).toContain('winding at most 12.5 Ω');
    expect(stdout).not.toContain('For RIG.json');
    expect((await fit(rows, '--part', 'generator', '--speed', 'held')).stdout).toContain('"resistance_Ohm":12.5');
    expect((await fit(rows, '--part', 'generator')).stderr).toContain('--speed held where it was held');
  });

  it.each([
    ['no column', ['amps,colour', '1,red'], 'no column with the voltage'],
    ['no number', ['voltage_V,current_mA', '2,100', 'x,120'], 'line 3: voltage_V is “x”'],
    ['another unit', ['voltage_V,current_A', '2,100', '1,60'], 'line 2: current_A is 100, which no bench has'],
    ['no current', ['voltage_V,current_A', '2,0.1', '1,'], 'line 3: the current is missing'],
    ['one voltage', ['voltage_V,current_A', '2,0.1'], 'Two readings at different voltages'],
    ['nothing', ['voltage_V,current_A'], 'holds no row'],
  ])('ends with 2 and names line and cell: %s', async (_, rows, words) => {
    const { code, stderr } = await fit(rows, '--part', 'lamp');
    expect(code).toBe(2);
    expect(stderr).toContain(words);
  });
});
