/** A server that begins with another group's plan. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { anglePlan, bladesPlan } from '#core/experiment/plan/templates.ts';
import { ExperimentViewSchema } from '#core/experiment/view.ts';
import { packageTarget } from '../../../server/carry/package-target.ts';
import { writePackage } from '../../../server/carry/write-package.ts';
import { openStoreReader } from '../../../server/store/reader.ts';
import { experimentInputs, recordSession } from '../../support/recorded-session.ts';
import { runCommand, startServer, type ServerProcess } from '../../support/server-process.ts';
import { makeFolder, removeFolder } from '../store/folders.ts';

let folder = '';
const at = (name: string): string => join(folder, name);
beforeAll(async () => {
  folder = makeFolder();
  await recordSession(at('there'), 'Group B', experimentInputs().slice(0, 1500));
  const reader = openStoreReader(at('there'));
  writePackage(reader, reader.sessions()[0]!, packageTarget(at('b.zip')), { program: '0.0.0', licence: null });
  reader.close();
  writeFileSync(at('plan.json'), JSON.stringify({ plan: bladesPlan(1) }));
  writeFileSync(at('none.json'), JSON.stringify({ plan: null }));
}, 60_000);
afterAll(() => removeFolder(folder));

const planOf = async ({ url }: ServerProcess) => {
  const answer = await fetch(new URL('/api/experiment', url), { headers: { connection: 'close' } });
  return ExperimentViewSchema.parse(await answer.json()).plan;
};
const serve = (file: string) =>
  startServer('--data', at('here'), '--source', 'meters', '--plan', at(file));

it('begins with the plan of a session’s file, as if it had been typed; keeps the one that it has', async () => {
  const first = await serve('b.zip');
  await expect.poll(() => planOf(first)).toEqual(anglePlan(3));
  await first.kill();
  const again = await serve('plan.json');
  await again.stop();
  const reader = openStoreReader(at('here'));
  const { id } = reader.sessions()[0]!;
  expect(reader.ledger(id)?.plan).toEqual(anglePlan(3));
  const said = reader.recordings(id).map((recording) =>
    [...reader.inputs(recording.id)].filter(({ kind }) => kind === 'command'),
  );
  expect(said).toMatchObject([[{ command: { say: 'plan', plan: anglePlan(3) } }], []]);
  reader.close();
});

it.each([
  ['nothing.zip', 'There is no file'],
  ['nothing.json', 'There is no such file'],
  ['none.json', 'That session had no plan'],
  ['there/stillmark.sqlite', 'There is no plan in it'],
])('does not start from %s, and says why', async (file, why) => {
  const { code, stderr } = await runCommand('serve', '--data', at('not'), '--plan', at(file), '--port', '0');
  expect(code).toBe(2);
  expect(stderr).toContain(why);
});
