import { copyFileSync, existsSync, readdirSync, readFileSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { dataFiles } from '../../../server/store/data-folder.ts';
import { openStore, type StoreSettings } from '../../../server/store/open.ts';
import { openStoreReader } from '../../../server/store/reader.ts';
import { openDatabaseReadOnly } from '../../../server/store/sqlite.ts';
import type { RecordingInfo, Store } from '../../../server/store/store.ts';
import { exampleTrial, HEAD, markerLine, seeded, STARTED_AT } from './examples.ts';
import { elsewhere, temporaryFolder, until } from './folders.ts';

const COPY_AT_ONCE: StoreSettings = { queueLimit_bytes: 1e6, firstUpkeep_ms: 0, copyEvery_ms: 1e8 };

/** Trials from `first` to `last`, each committed with a marker in the input. */
async function commitTrials(store: Store, recordingId: number, first: number, last: number): Promise<void> {
  for (let number = first; number <= last; number++) {
    const trials = [exampleTrial(number)];
    await store.commit(recordingId, { inputs: [markerLine(number)], trials, plateaus: [] });
  }
}

async function begin(store: Store): Promise<RecordingInfo> {
  const session = await store.createSession('Morning group', true, STARTED_AT);
  return store.beginRecording(session.id, STARTED_AT, HEAD);
}

async function folderWithTrials(count: number): Promise<{ folder: string; recording: RecordingInfo }> {
  const folder = temporaryFolder();
  const store = await openStore(folder);
  const recording = await begin(store);
  await commitTrials(store, recording.id, 1, count);
  await store.close();
  return { folder, recording };
}

/** Changes the one place in a closed file where `from` stands to `to`, of the same length. */
function rewrite(path: string, from: string, to: string): void {
  const bytes = readFileSync(path);
  const at = bytes.indexOf(from);
  expect(at).toBeGreaterThan(0);
  expect(bytes.indexOf(from, at + 1)).toBe(-1);
  bytes.write(to, at);
  writeFileSync(path, bytes);
}

/** Trials and markers of a recording as a reader sees them. */
function readBack(folder: string, recordingId: number): { trials: number[]; markers: string[] } {
  const reader = openStoreReader(folder);
  try {
    const trials = reader.trialRevisions(recordingId).map(({ id }) => id);
    const markers = [...reader.inputs(recordingId)].map((input) => (input.kind === 'line' ? input.text : ''));
    return { trials, markers };
  } finally {
    reader.close();
  }
}

const upTo = (count: number): number[] => Array.from({ length: count }, (_, index) => index + 1);
const markersUpTo = (count: number): string[] => upTo(count).map((number) => `marker ${number}`);

describe('one flipped byte', () => {
  it('in a trial is reported, and the trial is not served', async () => {
    const { folder, recording } = await folderWithTrials(5);
    // A number that stays plausible: only the checksum can tell.
    rewrite(dataFiles(folder).database, '"start_s":60,', '"start_s":61,');
    const store = await openStore(folder);
    expect(store.problems()).toMatchObject([{ code: 'row-damaged' }]);
    expect(store.problems()[0]?.message).toMatch(/Trial 3, revision 1/);
    expect((await store.trials(recording.sessionId)).map(({ id }) => id)).toEqual([1, 2, 4, 5]);
    await store.close();
    const reader = openStoreReader(folder);
    expect(reader.problems()).toHaveLength(1);
    expect(reader.trialRevisions(recording.id).map(({ id }) => id)).toEqual([1, 2, 4, 5]);
    reader.close();
  });

  it('in the newest revision leaves the one before', async () => {
    const folder = temporaryFolder();
    const store = await openStore(folder);
    const recording = await begin(store);
    const noted = exampleTrial(1, { revision: 2, note: 'lamp changed' });
    await store.commit(recording.id, { inputs: [], trials: [exampleTrial(1), noted], plateaus: [] });
    await store.close();
    rewrite(dataFiles(folder).database, 'lamp changed', 'lamp charged');
    const again = await openStore(folder);
    expect(again.problems()[0]?.message).toMatch(/Trial 1, revision 2/);
    expect(await again.trials(recording.sessionId)).toMatchObject([{ id: 1, revision: 1, note: null }]);
    await again.close();
  });

  it('in recorded input is named by recording and part, when read and in the background', async () => {
    const { folder, recording } = await folderWithTrials(3);
    const path = dataFiles(folder).database;
    // The second chunk, found by its own bytes, without unpacking anything.
    elsewhere(
      `const file = fs.readFileSync(given[0]);
       const chunk = Buffer.from(given[1], 'hex');
       const at = file.indexOf(chunk);
       if (at < 0) throw new Error('no such chunk');
       file[at + chunk.length - 1] ^= 1;
       fs.writeFileSync(given[0], file);`,
      path,
      chunkInHex(folder, 2),
    );
    const reader = openStoreReader(folder);
    const inputs = reader.inputs(recording.id)[Symbol.iterator]();
    expect(inputs.next().value).toEqual(markerLine(1));
    expect(() => inputs.next()).toThrow(/Part 2 of the input of recording 1 is damaged/);
    reader.close();

    const store = await openStore(folder, COPY_AT_ONCE);
    await until(() => store.problems().length > 0);
    expect(store.problems()[0]).toMatchObject({ code: 'row-damaged' });
    expect(await store.trials(recording.sessionId)).toHaveLength(3);
    await store.close();
  });
});

function chunkInHex(folder: string, number: number): string {
  const database = openDatabaseReadOnly(dataFiles(folder).database);
  const row = database.prepare('SELECT hex(data) AS data FROM input_chunk WHERE number = ?').get(number);
  database.close();
  return (row as { data: string }).data;
}

describe('a power cut', () => {
  it('leaves a prefix, wherever the write-ahead log is cut or spoilt', { timeout: 120_000 }, async () => {
    const folder = temporaryFolder();
    const made = await openStore(folder);
    const recording = await begin(made);
    await made.close();
    const store = await openStore(folder);
    await commitTrials(store, recording.id, 1, 25);
    // What the disk holds at this moment, as after a cut: the store is still open.
    const cut = temporaryFolder();
    copyElsewhere(dataFiles(folder).database, dataFiles(cut).database);
    copyElsewhere(`${dataFiles(folder).database}-wal`, `${dataFiles(cut).database}-wal`);
    await store.close();

    const wal = readFileSync(`${dataFiles(cut).database}-wal`);
    const chance = seeded(20);
    const counts = new Set<number>();
    for (let round = 0; round < 40; round++) {
      const at = Math.floor(chance() * wal.length);
      const spoilt = Buffer.from(round % 2 === 0 ? wal.subarray(0, at) : wal);
      if (round % 2 === 1) spoilt[at] = (spoilt[at] ?? 0) ^ 0x40;
      const one = temporaryFolder();
      copyFileSync(dataFiles(cut).database, dataFiles(one).database);
      writeFileSync(`${dataFiles(one).database}-wal`, spoilt);
      const { trials, markers } = readBack(one, recording.id);
      expect(trials).toEqual(upTo(trials.length));
      expect(markers).toEqual(markersUpTo(trials.length));
      counts.add(trials.length);
    }
    expect(readBack(cut, recording.id).trials).toEqual(upTo(25));
    // The cuts did matter: prefixes of many lengths came out.
    expect(counts.size).toBeGreaterThan(5);
  });
});

function copyElsewhere(from: string, to: string): void {
  elsewhere('fs.copyFileSync(given[0], given[1]);', from, to);
}

describe('a damaged data file', () => {
  /** 20 trials, of which the copy holds 10. */
  async function copiedHalfway(): Promise<{ folder: string; recording: RecordingInfo }> {
    const { folder, recording } = await folderWithTrials(10);
    const store = await openStore(folder, COPY_AT_ONCE);
    await until(() => existsSync(dataFiles(folder).copy));
    await commitTrials(store, recording.id, 11, 20);
    await store.close();
    return { folder, recording };
  }

  const keptFile = (folder: string): string =>
    readdirSync(folder).find((name) => /^stillmark-damaged-.*\.sqlite$/.test(name)) ?? '';

  it('that can not be read at all is kept, and replaced by the newest copy', async () => {
    const { folder, recording } = await copiedHalfway();
    const garbage = Buffer.alloc(8192, 'no database ');
    writeFileSync(dataFiles(folder).database, garbage);
    const store = await openStore(folder);
    expect(store.problems()).toMatchObject([{ code: 'data-restored' }]);
    expect(store.problems()[0]?.message).toContain(keptFile(folder));
    expect(readFileSync(join(folder, keptFile(folder)))).toEqual(garbage);
    expect((await store.trials(recording.sessionId)).map(({ id }) => id)).toEqual(upTo(10));
    // And work goes on.
    await commitTrials(store, recording.id, 11, 12);
    await store.close();
    expect(readBack(folder, recording.id)).toEqual({ trials: upTo(12), markers: markersUpTo(12) });
  });

  it('gives what can still be read of it, on top of the copy', async () => {
    const { folder, recording } = await copiedHalfway();
    const path = dataFiles(folder).database;
    scribble(path, rootPage(folder, 'plateau'));
    const store = await openStore(folder);
    expect(store.problems()).toMatchObject([{ code: 'data-restored' }]);
    await store.close();
    expect(readBack(folder, recording.id)).toEqual({ trials: upTo(20), markers: markersUpTo(20) });
  });

  it('gives what can still be read of it when there is no copy', async () => {
    const { folder, recording } = await folderWithTrials(10);
    scribble(dataFiles(folder).database, rootPage(folder, 'plateau'));
    const store = await openStore(folder);
    expect(store.problems()[0]?.message).toContain('There was no usable copy');
    expect((await store.trials(recording.sessionId)).map(({ id }) => id)).toEqual(upTo(10));
    await store.close();
  });

  it('does not pass for a new one when it was emptied', async () => {
    const { folder, recording } = await copiedHalfway();
    truncateSync(dataFiles(folder).database, 0);
    const store = await openStore(folder);
    expect(store.problems()).toMatchObject([{ code: 'data-restored' }]);
    expect(await store.trials(recording.sessionId)).toHaveLength(10);
    await store.close();
  });

  it('is explained to a reader, which restores nothing', async () => {
    const { folder, recording } = await folderWithTrials(3);
    writeFileSync(dataFiles(folder).database, 'no database '.repeat(500));
    expect(() => readBack(folder, recording.id)).toThrow(/is damaged .* Start the server with this folder/);
    expect(readdirSync(folder).filter((name) => name.includes('damaged'))).toEqual([]);
  });
});

/** The page on which a table or index begins. */
function rootPage(folder: string, name: string): number {
  const database = openDatabaseReadOnly(dataFiles(folder).database);
  const row = database.prepare('SELECT rootpage FROM sqlite_schema WHERE name = ?').get(name);
  database.close();
  return (row as { rootpage: number }).rootpage;
}

function scribble(path: string, page: number): void {
  const pageSize_bytes = 4096;
  const bytes = readFileSync(path);
  bytes.fill(0xa5, (page - 1) * pageSize_bytes, page * pageSize_bytes);
  writeFileSync(path, bytes);
}
