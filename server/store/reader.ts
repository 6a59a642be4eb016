/**
 * Reading a data folder without holding it: for replay and export, also while a server runs. All
 * of one reader's answers show the same moment.
 */
import { existsSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import type { ClosedPlateau, Notice } from '#core/events.ts';
import type { Ledger } from '#core/experiment/conductor/ledger.ts';
import type { Trial } from '#core/experiment/trial.ts';
import type { Input } from '#core/inputs.ts';
import type { Learnt } from '#core/signal/learnt.ts';
import { dataFiles, unusableFolder, type DataFiles } from './data-folder.ts';
import { StoreError } from './errors.ts';
import { decodeInputs } from './input-codec.ts';
import { findDamagedRows } from './repair.ts';
import * as rows from './rows.ts';
import { refuseNewer, SCHEMA_VERSION, schemaVersion } from './schema.ts';
import { openDatabaseReadOnly, RESULT, resultCode, saysDamaged, type Database } from './sqlite.ts';
import { findDamagedOfSession, readSessionRows, type SessionRow } from './session-rows.ts';
import type { RecordingInfo, SessionInfo, StoredTrial } from './store.ts';
import { describeDamage, isIntact, TABLE_NAMES } from './tables.ts';
import { damagedFile } from './world-failure.ts';

export interface StoreReader {
  /** Oldest first. */
  sessions(): SessionInfo[];
  /**
   * Of one session, in the order they were begun.
   * @throws StoreError `unknown-shape` for one made by a version whose head is not known here
   */
  recordings(sessionId: string): RecordingInfo[];
  /**
   * One chunk in memory at a time.
   * @throws StoreError `data-damaged`, naming recording and chunk, where input is damaged or missing
   */
  inputs(recordingId: number): Iterable<Input>;
  /** Every revision that the recording's input brought, in the order of their commits. */
  trialRevisions(recordingId: number): Trial[];
  plateaus(recordingId: number): ClosedPlateau[];
  /** The newest intact revision of each trial of the session, by number. */
  trials(sessionId: string): StoredTrial[];
  /** Every intact revision of the session's trials, in the order of their commits. */
  revisions(sessionId: string): StoredTrial[];
  /** What the detector had learnt by the end. */
  learnt(sessionId: string): Learnt | null;
  /** The plan, and what was decided about it, as it stands. */
  ledger(sessionId: string): Ledger | null;
  /** Every intact row of the session. */
  rows(sessionId: string): Iterable<SessionRow>;
  /** Rows that are not what was written; they are left out of the answers. */
  problems(): Notice[];
  /** The same for the rows of one session. */
  problemsOf(sessionId: string): Notice[];
  close(): void;
}

/** @throws StoreError `no-data`, `data-too-new`, `data-too-old`, `data-damaged`, `data-folder-unusable` */
export function openStoreReader(dataFolder: string): StoreReader {
  const files = dataFiles(dataFolder);
  const database = explained(files, () => openSnapshot(files));
  const read = <T>(query: () => T): T => explained(files, query);
  return {
    sessions: () => read(() => rows.readSessions(database)),
    recordings: (sessionId) => read(() => rows.readRecordings(database, sessionId)),
    inputs: (recordingId) => readInputs(database, recordingId, read),
    trialRevisions: (recordingId) => read(() => rows.readTrialRevisions(database, recordingId)),
    plateaus: (recordingId) => read(() => rows.readPlateaus(database, recordingId)),
    trials: (sessionId) => read(() => rows.readNewestTrials(database, sessionId)),
    revisions: (sessionId) => read(() => rows.readRevisions(database, sessionId)),
    learnt: (sessionId) => read(() => rows.readNewestLearnt(database, sessionId)),
    ledger: (sessionId) => read(() => rows.readNewestLedger(database, sessionId)),
    rows: (sessionId) => readSessionRows(database, sessionId),
    problems: () => read(() => findDamagedRows(database, TABLE_NAMES)),
    problemsOf: (sessionId) => read(() => findDamagedOfSession(database, sessionId)),
    close: () => {
      database.exec('ROLLBACK');
      database.close();
    },
  };
}

function openSnapshot(files: DataFiles): Database {
  if (!existsSync(files.database)) {
    throw new StoreError('no-data', `There is no Stillmark data in ${files.folder}. Check the folder's name.`);
  }
  const database = openForReading(files);
  try {
    refuseNewer(database, files.database);
    if (schemaVersion(database) < SCHEMA_VERSION) throw tooOld(files);
    // One transaction for everything: what a running server commits meanwhile does not mix in.
    database.exec('BEGIN; SELECT count(*) FROM session;');
    return database;
  } catch (error) {
    database.close();
    throw error;
  }
}

function openForReading({ database: path }: DataFiles): Database {
  const database = openDatabaseReadOnly(path);
  try {
    schemaVersion(database);
    return database;
  } catch (error) {
    database.close();
    // On a write-protected medium SQLite can't make the files by which processes agree on the log;
    // without a log there is nothing to agree on.
    if (resultCode(error) !== RESULT.cannotOpen || existsSync(`${path}-wal`)) throw error;
    const url = pathToFileURL(path);
    url.search = '?immutable=1';
    return openDatabaseReadOnly(url);
  }
}

function* readInputs(
  database: Database,
  recordingId: number,
  read: <T>(query: () => T) => T,
): Generator<Input> {
  const last = read(() => rows.lastChunkNumber(database, recordingId));
  for (let number = 1; number <= last; number++) {
    yield* read(() => readChunk(database, recordingId, number));
  }
}

function readChunk(database: Database, recordingId: number, number: number): Input[] {
  const name = `part ${number} of recording ${recordingId}`;
  const sql = 'SELECT * FROM input_chunk WHERE recordingId = ? AND number = ?';
  const row = database.get(sql, recordingId, number);
  if (row === undefined) throw new StoreError('data-damaged', `The input is damaged: ${name} is missing.`);
  if (!isIntact('input_chunk', row)) throw new StoreError('data-damaged', describeDamage('input_chunk', row).message);
  try {
    return decodeInputs(row['data'] as Uint8Array);
  } catch (error) {
    throw new StoreError('data-damaged', `In ${name}: ${(error as Error).message}`, { cause: error });
  }
}

/** What SQLite raises, as a sentence that says what to do. */
function explained<T>(files: DataFiles, query: () => T): T {
  try {
    return query();
  } catch (error) {
    if (saysDamaged(error)) throw damagedFile(files, error);
    throw resultCode(error) === null ? error : unusableFolder(files.folder, error);
  }
}

function tooOld({ database }: DataFiles): StoreError {
  return new StoreError(
    'data-too-old',
    `${database} was written by an earlier Stillmark. Start the server once with this folder: ` +
      'it brings the data up to date.',
  );
}
