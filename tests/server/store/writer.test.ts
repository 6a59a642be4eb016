/** The writer when the world around the data file fails. In this thread: no thread is needed for it. */
import { existsSync, readdirSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Notice } from '#core/events.ts';
import type { StoreState } from '#core/live-messages.ts';
import { dataFiles } from '../../../server/store/data-folder.ts';
import { packInputs } from '../../../server/store/input-codec.ts';
import { openFolder, type OpenFolder } from '../../../server/store/open-folder.ts';
import { openStoreReader } from '../../../server/store/reader.ts';
import type { PackedCommit } from '../../../server/store/rows.ts';
import type { Database } from '../../../server/store/sqlite.ts';
import { createWriter, type Writer } from '../../../server/store/writer.ts';
import { exampleLines, exampleTrial, HEAD, markerLine, STARTED_AT } from './examples.ts';
import { canMount, elsewhere, mountSmallDisk, temporaryFolder, until } from './folders.ts';

interface Bench {
  readonly writer: Writer;
  readonly recordingId: number;
  readonly states: StoreState[];
  readonly problems: Notice[];
}

/** @param change what the test does to each opened folder */
async function begin(folder: string, change = (opened: OpenFolder): OpenFolder => opened): Promise<Bench> {
  const states: StoreState[] = [];
  const problems: Notice[] = [];
  const writer = createWriter(dataFiles(folder), (...given) => change(openFolder(...given)), {
    state: (state) => states.push(state),
    problems: (found) => problems.push(...found),
  });
  const startedAt = STARTED_AT.toISOString();
  const session = await writer.createSession({ name: 'Morning group', origin: 'simulated', startedAt });
  const recording = await writer.beginRecording(session.id, startedAt, HEAD);
  return { writer, recordingId: recording.id, states, problems };
}

/** A commit with a trial, its marker, and lines enough to fill a disk before long. */
function commitOf(number: number): PackedCommit {
  const inputs = [markerLine(number), ...exampleLines(1000, 1000)];
  return { chunks: [packInputs(inputs)], trials: [exampleTrial(number)], plateaus: [], learnt: null, ledger: null };
}

/** Commits until saving fails; the commits that are asked for, in order. */
async function commitUntilFailing({ writer, recordingId, states }: Bench): Promise<Promise<unknown>[]> {
  const commits: Promise<unknown>[] = [];
  while (states.length === 0) {
    const commit = writer.commit(recordingId, commitOf(commits.length + 1));
    commits.push(commit);
    await Promise.race([commit, until(() => states.length > 0)]);
  }
  return commits;
}

function trialsAndMarkers(folder: string, recordingId: number): { trials: number[]; markers: string[] } {
  const reader = openStoreReader(folder);
  const trials = reader.trialRevisions(recordingId).map(({ id }) => id);
  const texts = [...reader.inputs(recordingId)].map((input) => (input.kind === 'line' ? input.text : ''));
  reader.close();
  return { trials, markers: texts.filter((text) => text.startsWith('marker')) };
}

function everything(count: number): { trials: number[]; markers: string[] } {
  const trials = Array.from({ length: count }, (_, index) => index + 1);
  return { trials, markers: trials.map((number) => `marker ${number}`) };
}

describe('a full disk', () => {
  it('stops saving, says so, and loses nothing once there is room', async () => {
    const folder = temporaryFolder();
    let limited: Database | undefined;
    const bench = await begin(folder, (opened) => {
      limited = opened.database;
      // SQLite then answers as it does when the disk is full (SQLITE_FULL).
      opened.database.exec('PRAGMA max_page_count = 60');
      return opened;
    });
    const commits = await commitUntilFailing(bench);
    const message = expect.stringMatching(/full: free some/) as string;
    expect(bench.states).toMatchObject([{ ok: false, message, code: 'disk-full', about: [folder] }]);
    commits.push(...[1, 2, 3].map((more) => bench.writer.commit(bench.recordingId, commitOf(commits.length + more))));
    // What was stored before can be read meanwhile.
    expect(await bench.writer.newestSession('simulated')).not.toBeNull();
    limited?.exec('PRAGMA max_page_count = 100000');
    await Promise.all(commits);
    expect(bench.states.map(({ ok }) => ok)).toEqual([false, true]);
    await bench.writer.close();
    expect(trialsAndMarkers(folder, bench.recordingId)).toEqual(everything(commits.length));
  });

  it.skipIf(!canMount())('that is one stops saving, and loses nothing once there is room', async () => {
    const folder = temporaryFolder();
    mountSmallDisk(folder, '2m');
    const ballast = join(folder, 'ballast');
    writeFileSync(ballast, Buffer.alloc(1_500_000));
    const bench = await begin(folder);
    const commits = await commitUntilFailing(bench);
    expect(bench.states).toMatchObject([{ ok: false }]);
    commits.push(bench.writer.commit(bench.recordingId, commitOf(commits.length + 1)));
    writeFileSync(ballast, '');
    await Promise.all(commits);
    expect(bench.states.at(-1)).toEqual({ ok: true, message: null });
    await bench.writer.close();
    expect(trialsAndMarkers(folder, bench.recordingId)).toEqual(everything(commits.length));
  });

  it('still full when the program ends is told to everyone who waits', async () => {
    const folder = temporaryFolder();
    const bench = await begin(folder, (opened) => {
      opened.database.exec('PRAGMA max_page_count = 60');
      return opened;
    });
    const commits = await commitUntilFailing(bench);
    const last = commits.at(-1);
    await Promise.all([
      expect(last).rejects.toMatchObject({ code: 'not-saved', message: expect.stringMatching(/full/) as string }),
      bench.writer.close(),
    ]);
    expect(trialsAndMarkers(folder, bench.recordingId)).toEqual(everything(commits.length - 1));
  });
});

describe.skipIf(process.platform === 'win32')('a drive that is detached', () => {
  it.each([
    ['it is back', 'fs.renameSync(given[0], given[1])'],
    [
      'a copy of its folder is there',
      "fs.cpSync(given[0], given[0] + '-copy', { recursive: true }); fs.renameSync(given[0] + '-copy', given[1])",
    ],
  ])('stops saving until %s', async (_, bringBack) => {
    const folder = temporaryFolder();
    const bench = await begin(folder);
    await bench.writer.commit(bench.recordingId, commitOf(1));
    const away = join(temporaryFolder(), 'away');
    renameSync(folder, away);
    const waiting = [2, 3].map((number) => bench.writer.commit(bench.recordingId, commitOf(number)));
    await until(() => bench.states.length > 0);
    expect(bench.states[0]?.message).toMatch(/no longer there: attach its drive again/);
    expect(existsSync(folder)).toBe(false);
    elsewhere(bringBack, away, folder);
    await Promise.all(waiting);
    expect(bench.states.map(({ ok }) => ok)).toEqual([false, true]);
    await bench.writer.close();
    expect(trialsAndMarkers(folder, bench.recordingId)).toEqual(everything(3));
  });
});

describe.skipIf(process.platform === 'win32')('a data file that is exchanged for another', () => {
  it('takes no more of the recording that it does not know', async () => {
    const folder = temporaryFolder();
    const bench = await begin(folder);
    await bench.writer.commit(bench.recordingId, commitOf(1));
    const other = temporaryFolder();
    const away = join(temporaryFolder(), 'away');
    openFolder(dataFiles(other)).close();
    renameSync(folder, away);
    renameSync(other, folder);
    const lost = expect.objectContaining({ code: 'not-saved' }) as Error;
    await expect(bench.writer.commit(bench.recordingId, commitOf(2))).rejects.toEqual(lost);
    await expect(bench.writer.beginRecording('2031-03-04-000000', '', HEAD)).rejects.toEqual(lost);
    const session = await bench.writer.createSession({ name: 'Anew', origin: 'simulated', startedAt: STARTED_AT.toISOString() });
    expect((await bench.writer.beginRecording(session.id, STARTED_AT.toISOString(), HEAD)).id).toBe(1);
    await bench.writer.close();
    expect(trialsAndMarkers(away, bench.recordingId)).toEqual(everything(1));
  });
});

describe('a data file that is damaged while the server runs', () => {
  it('is restored from what can be read of it, and what waits is saved', async () => {
    const folder = temporaryFolder();
    let spoilt = false;
    const bench = await begin(folder, (opened) => (spoilt ? opened : { ...opened, database: spoiling(opened) }));

    /** SQLite's answer to a damaged page (SQLITE_CORRUPT), once it is spoilt. */
    function spoiling({ database }: OpenFolder): Database {
      const exec = database.exec.bind(database);
      database.exec = (sql) => {
        if (!spoilt) return exec(sql);
        throw Object.assign(new Error('database disk image is malformed'), { code: 'ERR_SQLITE_ERROR', errcode: 11 });
      };
      return database;
    }

    await bench.writer.commit(bench.recordingId, commitOf(1));
    spoilt = true;
    await bench.writer.commit(bench.recordingId, commitOf(2));
    expect(bench.states.map(({ ok }) => ok)).toEqual([false, true]);
    expect(bench.problems).toMatchObject([{ code: 'data-restored' }]);
    await bench.writer.close();
    expect(trialsAndMarkers(folder, bench.recordingId)).toEqual(everything(2));
    expect(readdirSync(folder).filter((name) => /^stillmark-damaged-.*sqlite$/.test(name))).toHaveLength(1);
  });
});
