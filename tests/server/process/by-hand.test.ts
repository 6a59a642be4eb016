/** A session without a board on the real program: said over HTTP, kept, and derived again. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Command } from '#core/experiment/command.ts';
import { importTrials } from '#core/experiment/import/import-trials.ts';
import { StatusSchema, TrialsResponseSchema } from '#core/live-messages.ts';
import { keyIn } from '../../support/keyed-readings.ts';
import { runCommand, startServer, type ServerProcess } from '../../support/server-process.ts';

describe('without a board', () => {
  let dataFolder: string;
  let server: ServerProcess;
  beforeAll(async () => {
    dataFolder = mkdtempSync(join(tmpdir(), 'stillmark-meters-'));
    server = await startServer('--port', '0', '--data', dataFolder, '--source', 'simulated:1');
  });
  afterAll(async () => {
    await server.kill();
    rmSync(dataFolder, { recursive: true, force: true });
  });

  const post = (path: string, body: object) =>
    fetch(new URL(path, server.url), {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
  const say = (command: Command) => post('/api/experiment', command);
  const status = async () =>
    StatusSchema.parse(await (await fetch(new URL('/api/status', server.url))).json());
  const trials = async () =>
    TrialsResponseSchema.parse(await (await fetch(new URL('/api/trials', server.url))).json()).trials;

  it('refuses readings while the rig is simulated, and says what to do', async () => {
    const answer = await say(keyIn(null, [[2.31, 0.0431]]));
    expect(answer.status).toBe(409);
    expect(await answer.text()).toContain('No board: two meters');
  });

  it('begins a session of its own for meters', async () => {
    const before = (await status()).session.id;
    expect((await post('/api/link', { use: 'meters' })).status).toBe(204);
    const { session, simulated, port } = await status();
    expect({ simulated, port }).toEqual({ simulated: false, port: { phase: 'meters' } });
    expect(session.id).not.toBe(before);
  });

  it('keeps 500 rows of a table, and what was keyed in, over a kill', async () => {
    expect((await say(keyIn(null, [[2.31, 0.0431], [2.3, 0.043]]))).status).toBe(200);
    const lines = Array.from({ length: 500 }, (_, i) => `${i % 90},${(1 + i / 1000).toFixed(3)},40.1`);
    const table = importTrials(['angle_deg,voltage_V,current_mA', ...lines].join('\n'), null);
    const rows = table.trials.map((row) => ({ ...row, runId: null }));
    expect((await say({ say: 'bring-in', name: 'class.csv', rows, again: false })).status).toBe(200);
    const kept = await trials();
    expect(kept).toHaveLength(501);
    await server.kill();
    server = await startServer('--data', dataFolder);
    expect(await trials()).toEqual(kept);
  });

  it('comes back to the meters by itself, as long as no board is attached', async () => {
    const { port, offers } = await status();
    expect(offers.length > 0 || port.phase === 'meters').toBe(true);
  });

  it('takes back, after each of two kills, what was done before them', async () => {
    const struck = async () => (await trials()).filter((trial) => trial.struck).length;
    expect((await say({ say: 'undo' })).status).toBe(200);
    expect(await struck()).toBe(500);
    await server.kill();
    server = await startServer('--data', dataFolder, '--source', 'meters');
    expect((await say({ say: 'undo' })).status).toBe(200);
    expect(await struck()).toBe(501);
    const answer = await say({ say: 'undo' });
    expect(answer.status).toBe(409);
    expect(await answer.text()).toContain('nothing to take back');
  });

  it('is derived again the same by replay', async () => {
    await server.kill();
    const { code, stdout } = await runCommand('replay', '--data', dataFolder);
    expect(stdout).toContain('1002 trial revisions, identical');
    expect(code).toBe(0);
  });
});
