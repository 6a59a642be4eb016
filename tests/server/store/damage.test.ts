import { copyFileSync, existsSync, readdirSync, readFileSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Notice } from '#core/events.ts';
import { dataFiles } from '../../../server/store/data-folder.ts';
import { packInputs } from '../../../server/store/input-codec.ts';
import { openFolder } from '../../../server/store/open-folder.ts';
import { openStore, type StoreSettings } from '../../../server/store/open.ts';
import { openStoreReader } from '../../../server/store/reader.ts';
import { openDatabaseReadOnly } from '../../../server/store/sqlite.ts';
import type { RecordingInfo } from '../../../server/store/store.ts';
import { makeCopy } from '../../../server/store/upkeep.ts';
import { createWriter, type Writer } from '../../../server/store/writer.ts';
import { exampleTrial, HEAD, markerLine, seeded, STARTED_AT } from './examples.ts';
import { elsewhere, temporaryFolder, until } from './folders.ts';

/** The writer in this thread: all that the store does, without waiting for a thread to start. */
function openWriter(folder: string): { writer: Writer; problems: Notice[] } {
  const problems: Notice[] = [];
  const writer = createWriter(dataFiles(folder), openFolder, {
    state: () => undefined,
    problems: (found) => problems.push(...found),
  });
  return { writer, problems };
}

/** Trials from `first` to `last`, each committed with a marker in the input. */
async function commitTrials(writer: Writer, recordingId: number, first: number, last: number): Promise<void> {
  for (let number = first; number <= last; number++) {
    const chunks = [packInputs([markerLine(number)])];
    const trials = [exampleTrial(number)];
    await writer.commit(recordingId, { chunks, trials, plateaus: [], learnt: null, ledger: null });
  }
}

async function begin(writer: Writer): Promise<RecordingInfo> {
  const startedAt = STARTED_AT.toISOString();
  const session = await writer.createSession({ name: 'Morning group', origin: 'simulated', startedAt });
  return writer.beginRecording(session.id, startedAt, HEAD);
}

async function folderWithTrials(count: number): Promise<{ folder: string; recording: RecordingInfo }> {
  const folder = temporaryFolder();
  const { writer } = openWriter(folder);
  const recording = await begin(writer);
  await commitTrials(writer, recording.id, 1, count);
  await writer.close();
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

const UPKEEP_AT_ONCE: StoreSettings = { queueLimit_bytes: 1e6, firstUpkeep_ms: 0, copyEvery_ms: 1e8 };

describe('one flipped byte', () => {
  it('in a trial is reported, and the trial is not served', async () => {
    const { folder, recording } = await folderWithTrials(5);
    // A number that stays plausible: only the checksum can tell.
    rewrite(dataFiles(folder).database, '"start_s":60,', '"start_s":61,');
    const { writer, problems } = openWriter(folder);
    expect(problems).toMatchObject([{ code: 'row-damaged' }]);
    expect(problems[0]?.message).toMatch(/Trial 3, revision 1/);
    expect((await writer.trials(recording.sessionId)).map(({ id }) => id)).toEqual([1, 2, 4, 5]);
    await writer.close();
    const reader = openStoreReader(folder);
    expect(reader.problems()).toHaveLength(1);
    expect(reader.trialRevisions(recording.id).map(({ id }) => id)).toEqual([1, 2, 4, 5]);
    reader.close();
  });

  it('in the newest revision leaves the one before', async () => {
    const folder = temporaryFolder();
    const { writer } = openWriter(folder);
    const recording = await begin(writer);
    const trials = [exampleTrial(1), exampleTrial(1, { revision: 2, note: 'lamp changed' })];
    await writer.commit(recording.id, { chunks: [], trials, plateaus: [], learnt: null, ledger: null });
    await writer.close();
    rewrite(dataFiles(folder).database, 'lamp changed', 'lamp charged');
    const again = openWriter(folder);
    expect(again.problems[0]?.message).toMatch(/Trial 1, revision 2/);
    const [left] = await again.writer.trials(recording.sessionId);
    expect(left).toMatchObject({ id: 1, revision: 1, note: null });
    await again.writer.close();
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

    const store = await openStore(folder, UPKEEP_AT_ONCE);
    await until(() => store.problems().length > 0);
    expect(await store.trials(recording.sessionId)).toHaveLength(3);
    // A copy with the damage in it must not take the place of one without.
    expect(store.problems().map(({ code }) => code)).toEqual(['row-damaged', 'data-not-copied']);
    await store.close();
    expect(existsSync(dataFiles(folder).copy)).toBe(false);
  });
});

describe('the copy', () => {
  it('is made in the background, and holds what was committed before', async () => {
    const { folder, recording } = await folderWithTrials(3);
    const store = await openStore(folder, UPKEEP_AT_ONCE);
    await until(() => existsSync(dataFiles(folder).copy));
    expect(store.problems()).toEqual([]);
    await store.close();
    const other = temporaryFolder();
    copyFileSync(dataFiles(folder).copy, dataFiles(other).database);
    expect(readBack(other, recording.id)).toEqual({ trials: upTo(3), markers: markersUpTo(3) });
  });

  it('is not made where it could fill the disk', async () => {
    const { folder } = await folderWithTrials(3);
    const files = dataFiles(folder);
    expect(makeCopy(files, () => 1000)).toMatchObject([{ code: 'data-not-copied' }]);
    expect(existsSync(files.copy)).toBe(false);
  });
});

function chunkInHex(folder: string, number: number): string {
  const database = openDatabaseReadOnly(dataFiles(folder).database);
  const row = database.get('SELECT hex(data) AS data FROM input_chunk WHERE number = ?', number);
  database.close();
  return String(row?.['data']);
}

describe('a power cut', () => {
  it('leaves a prefix, wherever the write-ahead log is cut or spoilt', async () => {
    const folder = temporaryFolder();
    const made = openWriter(folder);
    const recording = await begin(made.writer);
    await made.writer.close();
    const { writer } = openWriter(folder);
    await commitTrials(writer, recording.id, 1, 25);
    // What the disk holds at this moment, as after a cut: the writer is still at it.
    const cut = temporaryFolder();
    copyElsewhere(dataFiles(folder).database, dataFiles(cut).database);
    copyElsewhere(`${dataFiles(folder).database}-wal`, `${dataFiles(cut).database}-wal`);
    await writer.close();

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
    expect(makeCopy(dataFiles(folder))).toEqual([]);
    const { writer } = openWriter(folder);
    await commitTrials(writer, recording.id, 11, 20);
    await writer.close();
    return { folder, recording };
  }

  const keptFile = (folder: string): string =>
    readdirSync(folder).find((name) => /^stillmark-damaged-.*\.sqlite$/.test(name)) ?? '';

  it('that can not be read at all is kept, and replaced by the newest copy', async () => {
    const { folder, recording } = await copiedHalfway();
    const garbage = Buffer.alloc(8192, 'no database ');
    writeFileSync(dataFiles(folder).database, garbage);
    const { writer, problems } = openWriter(folder);
    expect(problems).toMatchObject([{ code: 'data-restored' }]);
    expect(problems[0]?.message).toContain(keptFile(folder));
    expect(readFileSync(join(folder, keptFile(folder)))).toEqual(garbage);
    expect((await writer.trials(recording.sessionId)).map(({ id }) => id)).toEqual(upTo(10));
    // And work goes on.
    await commitTrials(writer, recording.id, 11, 12);
    await writer.close();
    expect(readBack(folder, recording.id)).toEqual({ trials: upTo(12), markers: markersUpTo(12) });
  });

  it('gives what can still be read of it, on top of the copy', async () => {
    const { folder, recording } = await copiedHalfway();
    const path = dataFiles(folder).database;
    scribble(path, rootPage(folder, 'plateau'));
    const { writer, problems } = openWriter(folder);
    expect(problems).toMatchObject([{ code: 'data-restored' }]);
    await writer.close();
    expect(readBack(folder, recording.id)).toEqual({ trials: upTo(20), markers: markersUpTo(20) });
  });

  it('gives what can still be read of it when there is no copy', async () => {
    const { folder, recording } = await folderWithTrials(10);
    scribble(dataFiles(folder).database, rootPage(folder, 'plateau'));
    const { writer, problems } = openWriter(folder);
    expect(problems[0]?.message).toContain('There was no usable copy');
    expect((await writer.trials(recording.sessionId)).map(({ id }) => id)).toEqual(upTo(10));
    await writer.close();
  });

  it('does not pass for a new one when it was emptied', async () => {
    const { folder, recording } = await copiedHalfway();
    truncateSync(dataFiles(folder).database, 0);
    const { writer, problems } = openWriter(folder);
    expect(problems).toMatchObject([{ code: 'data-restored' }]);
    expect(await writer.trials(recording.sessionId)).toHaveLength(10);
    await writer.close();
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
  const row = database.get('SELECT rootpage FROM sqlite_schema WHERE name = ?', name);
  database.close();
  return Number(row?.['rootpage']);
}

function scribble(path: string, page: number): void {
  const pageSize_bytes = 4096;
  const bytes = readFileSync(path);
  bytes.fill(0xa5, (page - 1) * pageSize_bytes, page * pageSize_bytes);
  writeFileSync(path, bytes);
}
