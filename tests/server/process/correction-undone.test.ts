/** A correction of what is read from now on is taken back for good: also after the next start. */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startServer, until, type ServerProcess } from '../../support/server-process.ts';

let dataFolder: string;
let server: ServerProcess;

beforeAll(async () => {
  dataFolder = mkdtempSync(join(tmpdir(), 'stillmark-correction-'));
  server = await startServer('--data', dataFolder, '--source', 'simulated:5');
}, 60_000);
afterAll(async () => {
  await server.kill();
  rmSync(dataFolder, { recursive: true, force: true });
});

async function post(path: string, body: unknown): Promise<void> {
  const response = await fetch(new URL(path, server.url), {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });
  expect(response.ok).toBe(true);
}

function keptCalibrations(): unknown[] {
  const { settings } = JSON.parse(readFileSync(join(dataFolder, 'boards.json'), 'utf8')) as {
    settings: Record<string, { calibration: unknown }>;
  };
  return Object.values(settings).map(({ calibration }) => calibration);
}

it('leaves the board as it was read before, step by step', async () => {
  await until(() => server.status(), ({ board }) => board !== null, 20);
  const correct = (gain: number) =>
    post('/api/board', { want: 'correction', quantity: 'voltage_V', line: { gain, offset: 0 } });
  await correct(2);
  await correct(1.5);
  expect(keptCalibrations()).toMatchObject([{ voltage_V: { gain: 3 } }]);
  await post('/api/experiment', { say: 'undo' });
  expect(keptCalibrations()).toMatchObject([{ voltage_V: { gain: 2 } }]);
  await post('/api/experiment', { say: 'undo' });
  expect(keptCalibrations()).toEqual([{}]);
});
