/** A server that is killed while it takes in a session's file has taken in all of it or nothing. */
import { existsSync, readFileSync } from 'node:fs';
import { request } from 'node:http';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { TakenInResponseSchema } from '#core/live-messages.ts';
import { createRandom, between } from '#core/virtual-rig/random.ts';
import { packageTarget } from '../../../server/carry/package-target.ts';
import { writePackage } from '../../../server/carry/write-package.ts';
import { openStoreReader } from '../../../server/store/reader.ts';
import { keyIn } from '../../support/keyed-readings.ts';
import { experimentInputs, recordSession } from '../../support/recorded-session.ts';
import { runCommand, startServer, type ServerProcess } from '../../support/server-process.ts';
import { makeFolder, removeFolder } from '../store/folders.ts';

const ROUNDS = 5;
const SEED = 5;

let folder = '';
let dataFolder = '';
let bytes: Buffer;
let sessionId = '';
beforeAll(async () => {
  folder = makeFolder();
  dataFolder = join(folder, 'here');
  const there = join(folder, 'there');
  ({ id: sessionId } = await recordSession(there, 'Group B', experimentInputs()));
  const path = join(folder, 'group-b.zip');
  const reader = openStoreReader(there);
  writePackage(reader, reader.sessions()[0]!, packageTarget(path), { program: '0.0.0', licence: null });
  reader.close();
  bytes = readFileSync(path);
}, 60_000);
afterAll(() => removeFolder(folder));

/** Sends so much of the file; resolves when the connection has ended, however it did. */
function send(server: ServerProcess, share: number): { sent: Promise<void>; over: Promise<void> } {
  const headers = { 'content-type': 'application/zip', 'content-length': bytes.length };
  const upload = request(new URL('/api/sessions/file', server.url), { method: 'POST', headers });
  const over = new Promise<void>((resolve) => {
    upload.on('error', () => resolve());
    upload.on('response', (response) => response.resume().on('close', resolve));
  });
  const part = bytes.subarray(0, Math.floor(share * bytes.length));
  const sent = new Promise<void>((resolve) => upload.write(part, () => resolve()));
  if (share === 1) upload.end();
  return { sent, over };
}

/** How much of the session is here: its trials, or null. */
function here(): number | null {
  const reader = openStoreReader(dataFolder);
  const known = reader.sessions().some(({ id }) => id === sessionId);
  const count = known ? reader.trials(sessionId).length : null;
  expect(reader.problems()).toEqual([]);
  reader.close();
  return count;
}

const start = () => startServer('--data', dataFolder, '--source', 'meters');

it('keeps what was recorded, and holds the whole file or none of it, whenever it is killed', async () => {
  const random = createRandom(SEED);
  const there = openStoreReader(join(folder, 'there'));
  const whole = there.trials(sessionId).length;
  there.close();
  expect(whole).toBeGreaterThan(1);
  let server = await start();
  const body = JSON.stringify(keyIn(null, [[2.31, 0.0431], [2.3, 0.043]]));
  const headers = { 'content-type': 'application/json', connection: 'close' };
  await fetch(new URL('/api/experiment', server.url), { method: 'POST', headers, body });
  const kept = await server.trials();
  expect(kept).toHaveLength(1);
  let taken = false;
  for (let round = 0; round < ROUNDS; round += 1) {
    const { sent, over } = send(server, round === 0 ? 0.5 : 1);
    await sent;
    await new Promise((resume) => setTimeout(resume, between(random, 0, 60 * round)));
    await server.kill();
    await over;
    const found = here();
    expect([null, whole]).toContain(found);
    // What was whole once stays so.
    if (taken || round === 0) expect(found).toBe(taken ? whole : null);
    taken = found !== null;
    server = await start();
    expect(await server.trials()).toEqual(kept);
    expect(existsSync(join(dataFolder, 'coming-in'))).toBe(false);
  }
  // Taken in once more it is whole, and nothing of it twice.
  const answer = await fetch(new URL('/api/sessions/file', server.url), {
    method: 'POST',
    headers: { 'content-type': 'application/zip', connection: 'close' },
    body: new Uint8Array(bytes),
  });
  const { outcome } = TakenInResponseSchema.parse(await answer.json());
  expect(outcome).toBe(taken ? 'known' : 'new');
  expect(here()).toBe(whole);
  await server.stop();
  const replayed = await runCommand('replay', '--data', dataFolder, '--json');
  expect(replayed.code, replayed.stdout).toBe(0);
}, 120_000);
