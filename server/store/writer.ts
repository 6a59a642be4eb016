/**
 * The one that writes, in its own thread. Changes wait in line and are made one transaction each,
 * in order. When the world fails (disk full, drive gone, file damaged) the line waits and the first
 * change is tried again, at most two seconds apart, until it is on disk.
 */
import { existsSync } from 'node:fs';
import type { Notice } from '#core/events.ts';
import type { Ledger } from '#core/experiment/conductor/ledger.ts';
import type { PlateauView, StoreState } from '#core/live-messages.ts';
import type { RecordingHead } from '#core/recording.ts';
import type { Learnt } from '#core/signal/learnt.ts';
import { dataFiles, type DataFiles } from './data-folder.ts';
import { StoreError } from './errors.ts';
import type { OpenFolder, openFolder } from './open-folder.ts';
import * as rows from './rows.ts';
import { inTransaction, openDatabaseReadOnly, saysDamaged, type Database } from './sqlite.ts';
import type { Origin, RecordingInfo, SessionInfo, StoredTrial, TakenIn, UsedSession } from './store.ts';
import { takeIn } from './take-in.ts';
import { damagedFile, fileGone, worldFailure, type Hindrance } from './world-failure.ts';

const FIRST_RETRY_ms = 250;
const LONGEST_RETRY_ms = 2000;

/** Everything the main thread asks of the writer; arguments and results cross by structured clone. */
export interface Writer {
  sessions(): Promise<SessionInfo[]>;
  newestSession(origin: Origin): Promise<UsedSession | null>;
  createSession(session: Omit<SessionInfo, 'id'>): Promise<SessionInfo>;
  trials(sessionId: string): Promise<StoredTrial[]>;
  revisions(sessionId: string): Promise<StoredTrial[]>;
  plateaus(sessionId: string): Promise<PlateauView[]>;
  learnt(sessionId: string): Promise<Learnt | null>;
  ledger(sessionId: string): Promise<Ledger | null>;
  beginRecording(sessionId: string, startedAt: string, head: RecordingHead): Promise<RecordingInfo>;
  takeIn(stagedFolder: string): Promise<TakenIn>;
  commit(recordingId: number, commit: rows.PackedCommit): Promise<StoredTrial[]>;
  close(): Promise<void>;
}

export interface WriterListener {
  state(state: StoreState): void;
  problems(problems: readonly Notice[]): void;
}

interface Job {
  /** Makes the change; throws when it could not be made. */
  attempt(database: Database): void;
  reject(error: StoreError): void;
}

/** @param open opens the data folder: at once, and again after the file was damaged or replaced */
export function createWriter(
  files: DataFiles,
  open: typeof openFolder,
  listener: WriterListener,
): Writer {
  let folder: OpenFolder | null = null;
  // Kept from the garbage collector while this thread lives: a connection that it ends late would
  // remove the write-ahead log by its name, which by then may be the log of another file.
  const retired: OpenFolder[] = [];
  let failure: Hindrance | null = null;
  let delay_ms = FIRST_RETRY_ms;
  let next: NodeJS.Timeout | null = null;
  const jobs: Job[] = [];
  openAgain();

  function retire(): void {
    if (folder === null) return;
    const old = folder;
    folder = null;
    retired.push(old);
    old.close();
  }

  function openAgain(knownDamaged = false): Database {
    retire();
    folder = open(files, knownDamaged);
    listener.problems(folder.problems);
    return folder.database;
  }

  /** The database as it is on disk now: a drive may have been detached and attached again. */
  function currentDatabase(): Database {
    if (folder?.isInPlace()) return folder.database;
    if (existsSync(files.database)) return openAgain();
    retire();
    throw fileGone(files);
  }

  function write<T>(change: (database: Database) => T): Promise<T> {
    return new Promise((resolve, reject) => {
      const attempt = (database: Database): void => {
        resolve(inTransaction(database, () => change(database)));
      };
      jobs.push({ attempt, reject });
      next ??= setTimeout(work, 0);
    });
  }

  /** One job a turn, so that acknowledgements leave between them. */
  function work(): void {
    next = null;
    const [job] = jobs;
    if (job === undefined) return;
    const failed = tryJob(job);
    if (failed === null) jobs.shift();
    if (failed?.message !== failure?.message) {
      failure = failed;
      listener.state(failed === null ? { ok: true, message: null } : { ok: false, ...failed });
    }
    if (jobs.length > 0) next = setTimeout(work, failed === null ? 0 : delay_ms);
    delay_ms = failed === null ? FIRST_RETRY_ms : Math.min(delay_ms * 2, LONGEST_RETRY_ms);
  }

  /** @returns null when it is done with (on disk, or refused), else what hinders it */
  function tryJob(job: Job): Hindrance | null {
    try {
      job.attempt(currentDatabase());
      return null;
    } catch (error) {
      if (saysDamaged(error)) return repairNow(error);
      const hindrance = worldFailure(error, files);
      if (hindrance !== null) return hindrance;
      // Anything else is a fault of ours: it ends the thread, and with it all saving, loudly.
      if (!(error instanceof StoreError)) throw error;
      job.reject(error);
      return null;
    }
  }

  /** Restores the file; the job is tried again after. */
  function repairNow(cause: unknown): Hindrance {
    try {
      openAgain(true);
      const message = `The data file was damaged (${String(cause)}) and has been restored: saving goes on in a moment.`;
      return { code: 'data-damaged', message, about: [] };
    } catch (error) {
      const hindrance = worldFailure(error, files);
      if (hindrance === null) throw error;
      return hindrance;
    }
  }

  // Reading never waits for writing, and is not tried again.
  async function read<T>(query: (database: Database) => T): Promise<T> {
    try {
      return query(currentDatabase());
    } catch (error) {
      const hindrance = worldFailure(error, files);
      if (hindrance !== null) throw new StoreError('data-folder-unusable', hindrance.message);
      throw saysDamaged(error) ? damagedFile(files, error) : error;
    }
  }

  async function close(): Promise<void> {
    if (next !== null) clearTimeout(next);
    let failed: Hindrance | null = null;
    for (let job = jobs.shift(); job !== undefined; job = jobs.shift()) {
      failed ??= tryJob(job);
      if (failed !== null) job.reject(new StoreError('not-saved', `Not saved: ${failed.message}`));
    }
    folder?.close();
  }

  return {
    sessions: () => read((database) => rows.readSessions(database, rows.NEWEST_FIRST)),
    newestSession: (origin) =>
      read((database) => rows.readNewestSession(database, origin)),
    createSession: (session) => write((database) => rows.insertSession(database, session)),
    trials: (sessionId) => read((database) => rows.readNewestTrials(database, sessionId)),
    revisions: (sessionId) => read((database) => rows.readRevisions(database, sessionId)),
    plateaus: (sessionId) => read((database) => rows.readPlateauViews(database, sessionId)),
    learnt: (sessionId) => read((database) => rows.readNewestLearnt(database, sessionId)),
    ledger: (sessionId) => read((database) => rows.readNewestLedger(database, sessionId)),
    beginRecording: (sessionId, startedAt, head) =>
      write((database) => rows.insertRecording(database, sessionId, startedAt, head)),
    takeIn: (stagedFolder) => write((database) => takeInFrom(stagedFolder, database)),
    commit: (recordingId, commit) =>
      write((database) => rows.insertCommit(database, recordingId, commit)),
    close,
  };
}

function takeInFrom(stagedFolder: string, database: Database): TakenIn {
  const staged = openDatabaseReadOnly(dataFiles(stagedFolder).database);
  try {
    return takeIn(database, staged);
  } finally {
    staged.close();
  }
}
