/** `stillmark predict` as a person meets it: what it prints, and the exit code. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Prediction } from '#core/rotor/prediction.ts';
import { runCommand } from '../../support/server-process.ts';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'stillmark-predict-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const RIG = {
  air: { temperature_degC: 20, pressure_Pa: 101325, relativeHumidity: 0.5 },
  windSpeed_mps: 4,
  rotor: { radius_m: 0.2, hubRadius_m: 0.03, chord_m: 0.05, blades: 3 },
  angles_deg: [15, 30, 45, 60, 90],
  generator: { k_Vsprad: 0.02, resistance_Ohm: 10, staticTorque_Nm: 0.001, runningTorque_Nm: 0.0005 },
  load: { kind: 'resistor', resistance_Ohm: 50 },
};

async function predictText(text: string, ...more: string[]) {
  const file = join(folder, 'rig.json');
  writeFileSync(file, text);
  return runCommand('predict', file, ...more);
}

describe('stillmark predict', () => {
  it('gives the object of the contract', async () => {
    const { code, stdout, stderr } = await predictText(JSON.stringify(RIG), '--json');
    expect([code, stderr]).toEqual([0, '']);
    const found = JSON.parse(stdout) as Prediction;
    expect(found.airDensity_kgpm3).toBeCloseTo(1.199314, 5);
    expect(found.windPower_W).toBeCloseTo(0.5 * 1.199314 * Math.PI * 0.04 * 64, 5);
    expect(found.angles.map(({ angle_deg, starts }) => [angle_deg, starts])).toEqual([
      [15, true], [30, true], [45, true], [60, true], [90, false],
    ]);
    for (const angle of found.angles) {
      for (const key of ['rotorSpeed_radps', 'tipSpeedRatio', 'powerCoefficient', 'shaftPower_W', 'loadPower_W', 'voltage_V', 'current_A'] as const) {
        expect(angle[key]).toBeGreaterThanOrEqual(0);
      }
      expect(angle.loadPower_W).toBeCloseTo(angle.voltage_V * angle.current_A, 12);
      expect(angle.shaftPower_W).toBeCloseTo(angle.powerCoefficient * found.windPower_W, 12);
    }
    expect(found.best.angle_deg).toBe(15);
    expect(found.best.statement).toContain('at the edge of what was tried');
  });

  it('says it in words and a table, as a model', async () => {
    const { code, stdout } = await predictText(JSON.stringify(RIG));
    expect(code).toBe(0);
    expect(stdout).toMatch(/15° +\d+ rpm/);
    expect(stdout).toMatch(/90° +does not start/);
    expect(stdout).toContain('A model, not a measurement');
    expect(stdout).not.toMatch(/NaN|Infinity|undefined|null/);
  });

  it('ends with 2 and names each field that is wrong, with what is expected', async () => {
    const { radius_m, ...rotor } = RIG.rotor;
    const wrong = { ...RIG, windSpeed_mps: -4, rotor: { ...rotor, radius_cm: 100 * radius_m, blades: 400 } };
    const { code, stdout, stderr } = await predictText(JSON.stringify(wrong));
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toContain('rotor.radius_cm is not known; expected: rotor.radius_m, metres');
    expect(stderr).toContain('windSpeed_mps is -4; expected: metres per second, 0.1 to 40.');
    expect(stderr).toContain('rotor.blades is 400; expected: a whole number, 1 to 24.');
  });

  it('names a number beyond all bounds, and a jet that meets no blade', async () => {
    const { stderr } = await predictText(JSON.stringify(RIG).replace('"windSpeed_mps":4', '"windSpeed_mps":1e400'));
    expect(stderr).toContain('windSpeed_mps is a number beyond all bounds; expected: metres per second');
    const narrow = { ...RIG, rotor: { ...RIG.rotor, jetRadius_m: 0.02 } };
    expect((await predictText(JSON.stringify(narrow))).stderr).toContain('rotor.jetRadius_m is 0.02');
  });

  it.each([
    ['NaN', 'windSpeed_mps is NaN; expected: a number.'],
    ['-Infinity', 'windSpeed_mps is -Infinity; expected: a number.'],
    ['4,5', 'windSpeed_mps is 4,5. With a decimal point: 4.5.'],
  ])('names the field of a number that is none: %s', async (written, sentence) => {
    const text = JSON.stringify(RIG).replace('"windSpeed_mps":4', `"windSpeed_mps": ${written}`);
    const { code, stderr } = await predictText(text);
    expect(code).toBe(2);
    expect(stderr).toContain(sentence);
  });

  it('ends with 2 without a file, with one that is not there, or no JSON', async () => {
    expect(await runCommand('predict')).toMatchObject({ code: 2, stderr: expect.stringContaining('Name the file') as string });
    expect(await runCommand('predict', join(folder, 'none.json'))).toMatchObject({ code: 2, stderr: expect.stringContaining('There is no file') as string });
    expect(await predictText(' ')).toMatchObject({ code: 2, stderr: expect.stringContaining('it is empty. docs/rotor.md has a rig') as string });
    expect(await predictText('\0')).toMatchObject({ code: 2, stderr: expect.stringContaining('Save it as UTF-8.') as string });
    expect(await predictText('{"windSpeed_mps": NaN}')).toMatchObject({ code: 2, stderr: expect.stringContaining('is not JSON') as string });
  });
});
