/** The store in processes of their own: built as the package is, killed, and started twice. */
import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, readdirSync, symlinkSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { build } from 'esbuild';
import { beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import { dataFiles } from '../../../server/store/data-folder.ts';
import { openFolder } from '../../../server/store/open-folder.ts';
import { openStore } from '../../../server/store/open.ts';
import { openStoreReader } from '../../../server/store/reader.ts';
import { readNewestTrials } from '../../../server/store/rows.ts';
import { seeded } from './examples.ts';
import { makeFolder, removeFolder, temporaryFolder } from './folders.ts';

const ROOT = resolve(import.meta.dirname, '../../..');
const KILLS = 20;

let bundle = '';

// As server/build.mjs does it: one bundle, and the threads' entry beside it.
beforeAll(async () => {
  bundle = makeFolder();
  await build({
    entryPoints: {
      committer: join(import.meta.dirname, 'committer.ts'),
      'store-worker': join(ROOT, 'server/store/worker.ts'),
    },
    outdir: bundle,
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    external: ['@photostructure/sqlite'],
  });
  symlinkSync(join(ROOT, 'node_modules'), join(bundle, 'node_modules'), 'junction');
  return () => removeFolder(bundle);
});

function startCommitter(folder: string): ChildProcess {
  const child = spawn(process.execPath, [join(bundle, 'committer.js'), folder], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  onTestFinished(() => void child.kill('SIGKILL'));
  return child;
}

/** Everything a process has printed so far, and what it prints until it ends. */
function collect(stream: NodeJS.ReadableStream | null): { text: string } {
  const collected = { text: '' };
  stream?.on('data', (chunk: Buffer) => (collected.text += chunk.toString()));
  return collected;
}

/** Trial number to checksum, of every acknowledgement that was printed whole. */
function acknowledged(text: string): Map<number, string> {
  const lines = text.split('\n').slice(0, -1);
  return new Map(lines.map((line) => [Number(line.split(' ')[0]), line.split(' ')[1] ?? '']));
}

describe('kill -9 while trials are acknowledged', () => {
  it(`loses none of them in ${KILLS} rounds`, { timeout: 240_000 }, async () => {
    const folder = temporaryFolder();
    const chance = seeded(3);
    const told = new Map<number, string>();
    for (let round = 0; round < KILLS; round++) {
      const child = startCommitter(folder);
      const printed = collect(child.stdout);
      const complaints = collect(child.stderr);
      await Promise.race([once(child.stdout ?? child, 'data'), once(child, 'exit')]);
      await pause(chance() * 250);
      child.kill('SIGKILL');
      await once(child, 'close');
      expect(complaints.text).toBe('');
      for (const [id, checksum] of acknowledged(printed.text)) told.set(id, checksum);
      checkFolder(folder, told);
    }
    expect(told.size).toBeGreaterThan(KILLS);
  });
});

/** Every told trial is there as told, and every stored trial has its marker in the stored input. */
function checkFolder(folder: string, told: ReadonlyMap<number, string>): void {
  const reader = openStoreReader(folder);
  const [session] = reader.sessions();
  const trials: number[] = [];
  const markers: string[] = [];
  for (const { id } of reader.recordings(session?.id ?? '')) {
    trials.push(...reader.trialRevisions(id).map((trial) => trial.id));
    for (const input of reader.inputs(id)) {
      if (input.kind === 'line' && input.text.startsWith('marker')) markers.push(input.text);
    }
  }
  expect(reader.problems()).toEqual([]);
  reader.close();
  expect(trials).toEqual(Array.from(trials, (_, index) => index + 1));
  expect(markers).toEqual(trials.map((number) => `marker ${number}`));

  const opened = openFolder(dataFiles(folder));
  const stored = readNewestTrials(opened.database, session?.id ?? '');
  opened.close();
  const checksums = new Map(stored.map(({ id, checksum }) => [id, checksum]));
  for (const [id, checksum] of told) expect(checksums.get(id)).toBe(checksum);
}

describe('a data folder in use', { timeout: 120_000 }, () => {
  it('is refused to a second server, which leaves the first unharmed', async () => {
    const folder = temporaryFolder();
    const first = startCommitter(folder);
    const printed = collect(first.stdout);
    await once(first.stdout ?? first, 'data');
    await expect(openStore(folder)).rejects.toMatchObject({
      code: 'data-folder-in-use',
      message: expect.stringContaining(folder) as string,
    });
    const before = acknowledged(printed.text).size;
    while (acknowledged(printed.text).size <= before) await once(first.stdout ?? first, 'data');
    expect(first.exitCode).toBeNull();
    // The lock goes with the process, however that ends.
    first.kill('SIGKILL');
    await once(first, 'close');
    const store = await openStore(folder);
    const [session] = [await store.newestSession('simulated')];
    expect((await store.trials(session?.id ?? '')).length).toBeGreaterThanOrEqual(before);
    await store.close();
  });

  it('is refused to a second store in the same process too', async () => {
    const folder = temporaryFolder();
    const first = await openStore(folder);
    await expect(openStore(folder)).rejects.toMatchObject({ code: 'data-folder-in-use' });
    const session = await first.createSession('Still here', 'board', new Date());
    await first.close();
    const second = await openStore(folder);
    expect(await second.newestSession('board')).toMatchObject(session);
    await second.close();
  });
});

describe('closing', () => {
  it('leaves one file that holds everything', async () => {
    const folder = temporaryFolder();
    const store = await openStore(folder);
    await store.createSession('One file', 'board', new Date());
    await store.close();
    expect(readdirSync(folder).sort()).toEqual(['stillmark.lock', 'stillmark.sqlite']);
    expect(existsSync(join(folder, 'stillmark.sqlite-wal'))).toBe(false);
  });
});
