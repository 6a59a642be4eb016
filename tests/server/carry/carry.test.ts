/** A session carried from one data folder to another: by the store, over HTTP, and played. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { anglePlan } from '#core/experiment/plan/templates.ts';
import { SessionPlanResponseSchema, TakenInResponseSchema, type TakenInResponse } from '#core/live-messages.ts';
import { packageTarget } from '../../../server/carry/package-target.ts';
import { unpackSession } from '../../../server/carry/unpack.ts';
import { writePackage } from '../../../server/carry/write-package.ts';
import { openStore } from '../../../server/store/open.ts';
import { openStoreReader } from '../../../server/store/reader.ts';
import type { SessionInfo, TakenIn } from '../../../server/store/store.ts';
import { experimentInputs, recordMore, recordSession, strikeAndNote } from '../../support/recorded-session.ts';
import { runCommand, startServer, until, type ServerProcess } from '../../support/server-process.ts';
import { makeFolder, removeFolder } from '../store/folders.ts';

let folder = '';
let count = 0;
let session: SessionInfo;
const here = (): string => join(folder, 'here');
beforeAll(async () => {
  folder = makeFolder();
  session = await recordSession(here(), 'Group A', experimentInputs());
  await recordMore(here(), session, strikeAndNote);
}, 60_000);
afterAll(() => removeFolder(folder));

const newName = (name: string): string => join(folder, `${name}-${++count}`);

function save(data: string, id = session.id): string {
  const path = `${newName('file')}.zip`;
  const reader = openStoreReader(data);
  const one = reader.sessions().find((kept) => kept.id === id)!;
  writePackage(reader, one, packageTarget(path), { program: '0.0.0', licence: null });
  reader.close();
  return path;
}

async function takeIn(file: string, data: string): Promise<TakenIn> {
  const stage = newName('stage');
  unpackSession(file, stage);
  const store = await openStore(data);
  const taken = await store.takeIn(stage);
  await store.close();
  return taken;
}

/** All that a session is, but for numbers that belong to the folder. */
function contentOf(data: string, id = session.id): unknown {
  const reader = openStoreReader(data);
  const content = {
    trials: reader.trials(id),
    ledger: reader.ledger(id),
    learnt: reader.learnt(id),
    recordings: reader.recordings(id).map((one) => ({
      startedAt: one.startedAt,
      revisions: reader.trialRevisions(one.id),
      plateaus: reader.plateaus(one.id),
      inputs: [...reader.inputs(one.id)].length,
    })),
  };
  expect(reader.problems()).toEqual([]);
  reader.close();
  return content;
}

/** A data folder in which another session was recorded first, so that all numbers differ. */
async function elsewhere(): Promise<string> {
  const data = newName('data');
  await recordSession(data, 'Group B', experimentInputs().slice(0, 1500));
  return data;
}

describe('a session that is taken in elsewhere', () => {
  it('is what it was: trials with their checksums, plan, what was learnt; and derives identically', async () => {
    const there = await elsewhere();
    const file = save(here());
    expect(await takeIn(file, there)).toEqual({ outcome: 'new', session });
    expect(contentOf(there)).toEqual(contentOf(here()));
    const { code, stdout } = await runCommand('replay', '--data', there, '--json');
    expect(code, stdout).toBe(0);
    // Carried further it is the same once more.
    const third = newName('data');
    await takeIn(save(there), third);
    expect(contentOf(third)).toEqual(contentOf(here()));
  });

  it('is known again; grows where it went on; and is kept apart where it went on at both', async () => {
    const there = await elsewhere();
    await takeIn(save(here()), there);
    expect(await takeIn(save(here()), there)).toMatchObject({ outcome: 'known', session });
    await recordMore(there, session, strikeAndNote);
    // Back at home only the other laptop went on.
    const home = newName('data');
    await takeIn(save(here()), home);
    expect(await takeIn(save(there), home)).toMatchObject({ outcome: 'grown', session });
    expect(contentOf(home)).toEqual(contentOf(there));
    // The older file has nothing new.
    expect(await takeIn(save(here()), home)).toMatchObject({ outcome: 'known' });
    // Now both go on.
    await recordMore(home, session, strikeAndNote);
    await recordMore(there, session, (trials) => strikeAndNote([...trials].reverse()));
    const before = contentOf(home);
    const apart = await takeIn(save(there), home);
    expect(apart.outcome).toBe('apart');
    expect(apart.session.id).not.toBe(session.id);
    expect(contentOf(home)).toEqual(before);
    expect(contentOf(home, apart.session.id)).toEqual(contentOf(there));
    expect(await takeIn(save(there), home)).toMatchObject({ outcome: 'known', session: apart.session });
    expect((await runCommand('replay', '--data', home)).code).toBe(0);
  });

  it('is taken up again there; one that was only taken in is not begun with by itself', async () => {
    const there = newName('data');
    await takeIn(save(here()), there);
    const store = await openStore(there);
    expect(await store.newestSession('simulated')).toBeNull();
    await store.close();
    await recordMore(there, session, () => experimentInputs().slice(0, 3000));
    expect((await runCommand('replay', '--data', there)).code).toBe(0);
    const again = await openStore(there);
    expect(await again.newestSession('simulated')).toMatchObject({ id: session.id });
    await again.close();
  });
});

async function post(server: ServerProcess, path: string, body: unknown): Promise<Response> {
  const headers = { 'content-type': 'application/json', connection: 'close' };
  return fetch(new URL(path, server.url), { method: 'POST', headers, body: JSON.stringify(body) });
}

async function bring(server: ServerProcess, bytes: Uint8Array<ArrayBuffer>): Promise<Response> {
  const headers = { 'content-type': 'application/zip', connection: 'close' };
  return fetch(new URL('/api/sessions/file', server.url), { method: 'POST', headers, body: bytes });
}

describe('over HTTP', () => {
  let server: ServerProcess;
  beforeAll(async () => {
    server = await startServer('--data', newName('data'), '--source', 'simulated', '--speed', '1');
  }, 60_000);
  afterAll(async () => void (await server.stop()));

  it('a file is taken in and saved, the same bytes; what is none is refused, and nothing is lost', async () => {
    const bytes = new Uint8Array(readFileSync(save(here())));
    const taken: TakenInResponse = TakenInResponseSchema.parse(await (await bring(server, bytes)).json());
    expect(taken).toEqual({ outcome: 'new', session });
    const saved = await fetch(new URL(`/api/sessions/${session.id}/file`, server.url), { headers: { connection: 'close' } });
    expect(saved.headers.get('content-disposition')).toBe(`attachment; filename="stillmark-${session.id}.zip"`);
    const path = `${newName('saved')}.zip`;
    writeFileSync(path, new Uint8Array(await saved.arrayBuffer()));
    expect((await runCommand('replay', path)).code).toBe(0);

    const cut = await bring(server, bytes.slice(0, bytes.length / 2));
    expect(cut.status).toBe(422);
    expect(await cut.json()).toMatchObject({ error: { code: 'file-refused', message: expect.stringContaining('copy it whole') as string } });
    expect((await post(server, '/api/sessions/file', {})).status).toBe(422);
    expect((await fetch(new URL('/api/sessions/none/file', server.url))).status).toBe(404);
    const plan = await fetch(new URL(`/api/sessions/${session.id}/plan`, server.url), { headers: { connection: 'close' } });
    expect(SessionPlanResponseSchema.parse(await plan.json())).toEqual({ plan: anglePlan(3) });
    expect((await fetch(new URL('/api/sessions/none/plan', server.url))).status).toBe(404);
    expect((await server.status()).store.ok).toBe(true);
  });

  it('a session is played: labelled, unchangeable, not stored; then what was there goes on', async () => {
    const live = (await server.status()).session.id;
    const played = await post(server, '/api/link', { use: 'session', id: session.id, speed: null });
    expect(played.status).toBe(204);
    const wanted = openStoreReader(here());
    const trials = wanted.trials(session.id);
    wanted.close();
    await until(server.status, ({ port }) => port.phase === 'ended', 60);
    expect(await server.status()).toMatchObject({ session: { id: session.id }, simulated: true, playing: { speed: null, recording: 2, recordings: 2 } });
    expect(await server.trials()).toEqual(trials.map(({ recorded_s: _recorded_s, ...view }) => view));
    const refused = await post(server, '/api/actions', { kind: 'strike', trialId: 1, reason: '' });
    expect(await refused.json()).toMatchObject({ error: { code: 'replay-only' } });
    expect((await post(server, '/api/link', { use: 'what-was' })).status).toBe(204);
    expect(await server.status()).toMatchObject({ session: { id: live }, playing: null });
    const reader = await (await fetch(new URL('/api/sessions', server.url))).json() as { sessions: { id: string }[] };
    expect(reader.sessions.map(({ id }) => id).sort()).toEqual([live, session.id].sort());
  });
});
