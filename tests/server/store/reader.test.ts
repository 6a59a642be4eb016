import { copyFileSync, rmSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { dataFiles } from '../../../server/store/data-folder.ts';
import { packInputs } from '../../../server/store/input-codec.ts';
import { openFolder } from '../../../server/store/open-folder.ts';
import { openStoreReader } from '../../../server/store/reader.ts';
import { insertCommit, insertRecording, insertSession } from '../../../server/store/rows.ts';
import { openDatabase } from '../../../server/store/sqlite.ts';
import { exampleLines, exampleTrial, HEAD, markerLine, STARTED_AT } from './examples.ts';
import { canMount, mountSmallDisk, remountReadOnly, temporaryFolder } from './folders.ts';

const startedAt = STARTED_AT.toISOString();

/** A closed data folder with one recording of three chunks and a trial. */
function fill(folder: string): number {
  const opened = openFolder(dataFiles(folder));
  const session = insertSession(opened.database, { name: 'Morning group', origin: 'simulated', startedAt });
  const { id } = insertRecording(opened.database, session.id, startedAt, HEAD);
  const chunks = [1, 2, 3].map((number) => packInputs([markerLine(number)]));
  insertCommit(opened.database, id, { chunks, trials: [exampleTrial(1)], plateaus: [], learnt: null, ledger: null });
  opened.close();
  return id;
}

describe('a reader', () => {
  it('says so when there is nothing to read', () => {
    const folder = temporaryFolder();
    const nothing = expect.objectContaining({ code: 'no-data' }) as Error;
    expect(() => openStoreReader(folder)).toThrow(nothing);
    expect(() => openStoreReader(`${folder}/missing`)).toThrow(nothing);
  });

  it('knows no recordings of a session that is not there', () => {
    const folder = temporaryFolder();
    fill(folder);
    const reader = openStoreReader(folder);
    expect(reader.sessions()).toHaveLength(1);
    expect(reader.recordings('2031-01-01-ffffff')).toEqual([]);
    expect([...reader.inputs(99)]).toEqual([]);
    reader.close();
  });

  it('names the part that is missing', () => {
    const folder = temporaryFolder();
    const recordingId = fill(folder);
    const database = openDatabase(dataFiles(folder).database);
    database.run('DELETE FROM input_chunk WHERE number = ?', 2);
    database.close();
    const reader = openStoreReader(folder);
    expect(() => [...reader.inputs(recordingId)]).toThrow(/part 2 of recording 1 is missing/);
    reader.close();
  });

  it('names the part whose bytes are intact but no input', () => {
    const folder = temporaryFolder();
    const opened = openFolder(dataFiles(folder));
    const session = insertSession(opened.database, { name: 'x', origin: 'simulated', startedAt });
    const { id } = insertRecording(opened.database, session.id, startedAt, HEAD);
    const noChunk = Uint8Array.of(0xff, 0xff);
    insertCommit(opened.database, id, { chunks: [noChunk], trials: [], plateaus: [], learnt: null, ledger: null });
    opened.close();
    const reader = openStoreReader(folder);
    expect(() => [...reader.inputs(id)]).toThrow(/In part 1 of recording 1/);
    reader.close();
  });

  it('does not bring an older file up to date by itself', () => {
    const folder = temporaryFolder();
    fill(folder);
    const database = openDatabase(dataFiles(folder).database);
    database.exec('PRAGMA user_version = 0');
    database.close();
    const old = { code: 'data-too-old', message: expect.stringContaining('Start the server once') as string };
    expect(() => openStoreReader(folder)).toThrow(expect.objectContaining(old) as Error);
  });

  it('streams: the chunks are taken one by one', () => {
    const folder = temporaryFolder();
    const opened = openFolder(dataFiles(folder));
    const session = insertSession(opened.database, { name: 'x', origin: 'simulated', startedAt });
    const { id } = insertRecording(opened.database, session.id, startedAt, HEAD);
    const good = packInputs(exampleLines(10, 50));
    const chunks = [good, Uint8Array.of(0xff)];
    insertCommit(opened.database, id, { chunks, trials: [], plateaus: [], learnt: null, ledger: null });
    opened.close();
    const reader = openStoreReader(folder);
    const inputs = reader.inputs(id)[Symbol.iterator]();
    // What comes before the bad chunk is already out when it is met.
    for (let count = 0; count < 10; count++) expect(inputs.next().done).toBe(false);
    expect(() => inputs.next()).toThrow(/part 2/);
    reader.close();
  });

  it.skipIf(!canMount()).each(['DELETE', 'WAL'])('reads a write-protected disk (%s)', (journal) => {
    const made = temporaryFolder();
    const recordingId = fill(made);
    const folder = temporaryFolder();
    mountSmallDisk(folder, '2m');
    copyFileSync(dataFiles(made).database, dataFiles(folder).database);
    const database = openDatabase(dataFiles(folder).database);
    database.exec(`PRAGMA journal_mode = ${journal}`);
    database.close();
    remountReadOnly(folder);
    const reader = openStoreReader(folder);
    expect([...reader.inputs(recordingId)]).toHaveLength(3);
    reader.close();
  });

  it('at a file that a server wants to open makes it wait, and then say so', () => {
    const folder = temporaryFolder();
    fill(folder);
    const reader = openStoreReader(folder);
    const busy = { code: 'data-folder-in-use', message: expect.stringContaining('Let it finish') as string };
    expect(() => openFolder(dataFiles(folder))).toThrow(expect.objectContaining(busy) as Error);
    reader.close();
    openFolder(dataFiles(folder)).close();
  });

  it('leaves a folder without data as it is', () => {
    const folder = temporaryFolder();
    rmSync(folder, { recursive: true });
    expect(() => openStoreReader(folder)).toThrow(/There is no Stillmark data/);
  });
});
