/** A table of trials, or another laptop's session: what is made of a chosen file. */
import { strToU8, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { importTrials } from '#core/experiment/import/import-trials.ts';
import { asOfGroup, runsForImport } from '#core/experiment/import/runs-of-rows.ts';
import { PlanSchema } from '#core/experiment/plan/plan.ts';
import { runsOf } from '#core/experiment/plan/runs.ts';
import { createBringingIn, LONGEST_TABLE, takeFile } from '../../../web/by-hand/bringing-in.ts';

const TABLE = 'trial,run,angle_deg,voltage_V,current_A\n1,r1 angle_deg=10,10,2.3,0.043\n2,r1 angle_deg=25,25,1.9,0.039\n';
const zipped = (files: Record<string, string>): Uint8Array<ArrayBuffer> => {
  const entries = Object.entries(files).map(([name, text]) => [name, strToU8(text)] as const);
  return new Uint8Array(zipSync(Object.fromEntries(entries)));
};

describe('a file that is chosen', () => {
  it('is a table, or a session’s file with one in it', async () => {
    const table = createBringingIn();
    await takeFile(table, new File([TABLE], 'paper.csv'));
    expect(table.text.value).toBe(TABLE);
    await takeFile(table, new File([zipped({ 'trials.csv': TABLE, 'session.jsonl': '{}' })], 'red.ZIP'));
    expect([table.text.value, table.name.value]).toEqual([TABLE, 'red.ZIP']);
  });

  it('that is neither is told to be no table', async () => {
    const table = createBringingIn();
    for (const bytes of [zipped({ 'other.txt': 'x' }), new Uint8Array([80, 75, 3])]) {
      await takeFile(table, new File([bytes], 'red.zip'));
      expect([table.text.value, table.problem.value]).toEqual(['', 'noSession']);
    }
    await takeFile(table, new File(['\0\uFFFD'], 'photo.csv'));
    expect(table.problem.value).toBeNull();
    expect(importTrials(table.text.value, null).problems).toEqual([{ line: 1, fault: { kind: 'not-text' } }]);
    await takeFile(table, new File([new Uint8Array(4 * LONGEST_TABLE + 1)], 'long.csv'));
    expect([table.text.value, table.problem.value]).toEqual(['', 'tooLarge']);
  });
});

describe('another group’s trials', () => {
  const levels = [10, 25].map((value) => ({ label: `${value}°`, value }));
  const plan = PlanSchema.parse({
    question: 'Which angle gives the most power?',
    factors: [{ kind: 'angle', key: 'angle_deg', name: 'Blade angle', levels }],
    ...{ design: 'single', rounds: 1, order: 'listed', seed: 1, groups: ['red', 'blue'] },
  });

  it('go to the runs of that group, though their own plan had none', () => {
    const { trials } = importTrials(TABLE, plan);
    expect(runsForImport(asOfGroup(trials, 'blue'), plan, runsOf(plan))).toEqual([
      'r1 group:blue angle_deg=10',
      'r1 group:blue angle_deg=25',
    ]);
    const told = runsForImport(trials, plan, runsOf(plan));
    expect(told.every((id) => id?.includes('group:red'))).toBe(true);
  });
});
