/** What the store keeps, as rows: how each thing is written, and read back with its schema. */
import { randomBytes } from 'node:crypto';
import { crc32 } from 'node:zlib';
import { z } from 'zod';
import type { ClosedPlateau } from '#core/events.ts';
import { LedgerSchema, type Ledger } from '#core/experiment/conductor/ledger.ts';
import { TrialSchema, type Trial } from '#core/experiment/trial.ts';
import { plateauView, type PlateauView } from '#core/live-messages.ts';
import { RecordingHeadSchema, type RecordingHead } from '#core/recording.ts';
import { LearntSchema, type Learnt } from '#core/signal/learnt.ts';
import { ClosedPlateauSchema } from './closed-plateau.ts';
import { StoreError } from './errors.ts';
import { compressPacked } from './input-codec.ts';
import type { Cell, Database, Row } from './sqlite.ts';
import type { Origin, RecordingInfo, SessionInfo, StoredTrial, UsedSession } from './store.ts';
import { formatChecksum, insertRow, isIntact, nextId, type Table } from './tables.ts';

/** A commit as it travels to the writer: input packed, the rest checked. */
export interface PackedCommit {
  readonly chunks: readonly Uint8Array[];
  readonly trials: readonly Trial[];
  readonly plateaus: readonly ClosedPlateau[];
  readonly learnt: Learnt | null;
  readonly ledger: Ledger | null;
}

const SessionRowSchema = z.object({
  id: z.string(),
  name: z.string(),
  startedAt: z.iso.datetime(),
  origin: RecordingHeadSchema.shape.origin,
});

const RecordingRowSchema = z.object({
  id: z.number().int(),
  sessionId: z.string(),
  startedAt: z.iso.datetime(),
  engineVersion: z.string(),
  head: z.string(),
});
type RecordingRow = z.infer<typeof RecordingRowSchema>;
const HeadNumberSchema = RecordingHeadSchema.pick({ number: true });

export function insertSession(
  database: Database,
  session: Omit<SessionInfo, 'id'>,
): SessionInfo {
  // A date for people, and chance so that sessions of two laptops never share an id.
  const id = `${session.startedAt.slice(0, 10)}-${randomBytes(3).toString('hex')}`;
  insertRow(database, 'session', { ...session, id });
  return { ...session, id };
}

export function insertRecording(
  database: Database,
  sessionId: string,
  startedAt: string,
  head: RecordingHead,
): RecordingInfo {
  if (readSessions(database, 'WHERE id = ?', sessionId).length === 0) throw gone(`Session ${sessionId}`);
  const id = nextRecordingId(database, sessionId);
  const recording = { id, sessionId, startedAt, engineVersion: process.versions.v8 };
  insertRow(database, 'recording', { ...recording, head: JSON.stringify(head) });
  return { ...recording, head };
}

export function insertCommit(
  database: Database,
  recordingId: number,
  commit: PackedCommit,
): StoredTrial[] {
  recordingOf(database, recordingId);
  let number = lastChunkNumber(database, recordingId) + 1;
  for (const packed of commit.chunks) {
    const id = nextId(database, 'input_chunk');
    insertRow(database, 'input_chunk', { id, recordingId, number, data: compressPacked(packed) });
    number += 1;
  }
  for (const plateau of commit.plateaus) {
    const id = nextId(database, 'plateau');
    insertRow(database, 'plateau', { id, recordingId, plateau: JSON.stringify(plateau) });
  }
  if (commit.learnt !== null) {
    const id = nextId(database, 'learnt');
    insertRow(database, 'learnt', { id, recordingId, learnt: JSON.stringify(commit.learnt) });
  }
  if (commit.ledger !== null) {
    const id = nextId(database, 'ledger');
    insertRow(database, 'ledger', { id, recordingId, ledger: JSON.stringify(commit.ledger) });
  }
  return commit.trials.map((trial) => insertTrial(database, recordingId, trial));
}

/**
 * Above every number that the session's trials call a recording by, those of recordings made in
 * another data folder included.
 */
function nextRecordingId(database: Database, sessionId: string): number {
  const numbers = readRecordingRows(database, 'WHERE sessionId = ?', sessionId).map(numberOfRow);
  return Math.max(nextId(database, 'recording'), ...numbers.map((number) => number + 1));
}

/** Chunks of a recording are numbered from 1 without gaps; 0 when there are none. */
export function lastChunkNumber(database: Database, recordingId: number): number {
  const sql = 'SELECT coalesce(max(number), 0) AS last FROM input_chunk WHERE recordingId = ?';
  return Number(database.get(sql, recordingId)?.['last']);
}

function insertTrial(database: Database, recordingId: number, trial: Trial): StoredTrial {
  const { sessionId } = recordingOf(database, recordingId);
  const startedAt = startsOf(database, sessionId).get(trial.recordingId);
  if (startedAt === undefined) throw gone(`Recording ${trial.recordingId}`);
  const text = JSON.stringify(trial);
  insertRow(database, 'trial_revision', {
    id: nextId(database, 'trial_revision'),
    sessionId,
    recordingId,
    trialId: trial.id,
    revision: trial.revision,
    trial: text,
  });
  return storedTrial(trial, startedAt, text);
}

/** When each recording of a session began, by the number that its trials call it. */
function startsOf(database: Database, sessionId: string): Map<number, string> {
  const recordings = readRecordingRows(database, 'WHERE sessionId = ?', sessionId);
  return new Map(recordings.map((row) => [numberOfRow(row), row.startedAt]));
}

function recordingOf(database: Database, id: number): RecordingRow {
  const [recording] = readRecordingRows(database, 'WHERE id = ?', id);
  if (recording !== undefined) return recording;
  throw gone(`Recording ${id}`);
}

/** What is written needs what it belongs to, which a damaged or exchanged file may not have. */
function gone(name: string): StoreError {
  return new StoreError(
    'not-saved',
    `${name} is no longer in the data file, which was damaged or exchanged: nothing more of it can ` +
      'be saved. Put the right file back and start Stillmark again, or begin anew.',
  );
}

/** @param text the trial as it is stored: its checksum is the same wherever it is carried */
export function storedTrial(trial: Trial, recordingStartedAt: string, text: string): StoredTrial {
  const recordedAt = wallTime(recordingStartedAt, trial.recorded_s);
  return { ...trial, recordedAt, checksum: formatChecksum(crc32(text)) };
}

/** RFC 3339, of a time on the recording's clock. */
export function wallTime(recordingStartedAt: string, at_s: number): string {
  return new Date(Date.parse(recordingStartedAt) + at_s * 1000).toISOString();
}

/** Intact rows only; what is damaged was reported when the file was opened. */
function intactRows(
  database: Database,
  table: Table,
  clause: string,
  ...parameters: Cell[]
): Row[] {
  const rows = database.all(`SELECT * FROM ${table} ${clause}`, ...parameters);
  return rows.filter((row) => isIntact(table, row));
}

export const NEWEST_FIRST = 'ORDER BY startedAt DESC, id DESC';

/** @param clause which ones, in which order */
export function readSessions(
  database: Database,
  clause = 'ORDER BY startedAt, id',
  ...parameters: Cell[]
): SessionInfo[] {
  return intactRows(database, 'session', clause, ...parameters).map((row) =>
    SessionRowSchema.parse(row),
  );
}

/**
 * The session of this origin that was recorded into last, and when that began. One that was only
 * taken in from elsewhere is another rig's.
 */
export function readNewestSession(database: Database, origin: Origin): UsedSession | null {
  const used = readSessions(database, 'WHERE origin = ?', origin).flatMap((session): UsedSession[] => {
    const rows = readRecordingRows(database, 'WHERE sessionId = ? ORDER BY startedAt', session.id);
    const last = rows.findLast(({ head }) => foreignNumber(head) === null);
    if (last === undefined && rows.length > 0) return [];
    return [{ ...session, usedAt: last?.startedAt ?? session.startedAt }];
  });
  return used.sort((a, b) => Date.parse(b.usedAt) - Date.parse(a.usedAt))[0] ?? null;
}

/** Of one session, in the order they were begun. */
export function readRecordings(database: Database, sessionId: string): RecordingInfo[] {
  return readRecordingRows(database, 'WHERE sessionId = ? ORDER BY id', sessionId).map((recording) => {
    const head = readJson(RecordingHeadSchema, recording.head, `The head of recording ${recording.id}`);
    return { ...recording, head };
  });
}

/** Heads unread: to date and list trials, the shape of what a detector learnt does not matter. */
function readRecordingRows(
  database: Database,
  clause: string,
  ...parameters: Cell[]
): RecordingRow[] {
  const found = intactRows(database, 'recording', clause, ...parameters);
  return found.map((row) => RecordingRowSchema.parse(row));
}

/** What a recording's trials call it, of a head of whatever version. */
function numberOfRow({ id, head }: Pick<RecordingRow, 'id' | 'head'>): number {
  return foreignNumber(head) ?? id;
}

/** Null for a recording that was made in this data folder. */
function foreignNumber(head: string): number | null {
  return HeadNumberSchema.parse(JSON.parse(head)).number;
}

/** The newest intact revision of each trial of a session, by number. */
export function readNewestTrials(database: Database, sessionId: string): StoredTrial[] {
  const newest = new Map(readRevisions(database, sessionId).map((trial) => [trial.id, trial]));
  return [...newest.values()].sort((a, b) => a.id - b.id);
}

/** Every intact revision of the session's trials, in the order of their commits. */
export function readRevisions(database: Database, sessionId: string): StoredTrial[] {
  const startedAt = startsOf(database, sessionId);
  const rows = intactRows(database, 'trial_revision', 'WHERE sessionId = ? ORDER BY id', sessionId);
  return rows.flatMap((row) => {
    const trial = readTrial(row);
    const began = startedAt.get(trial.recordingId);
    // Without its recording a trial can't be dated; the damaged recording has been reported.
    return began === undefined ? [] : [storedTrial(trial, began, String(row['trial']))];
  });
}

/** Every intact revision that a recording's input brought, in the order of their commits. */
export function readTrialRevisions(database: Database, recordingId: number): Trial[] {
  const clause = 'WHERE recordingId = ? ORDER BY id';
  return intactRows(database, 'trial_revision', clause, recordingId).map(readTrial);
}

function readTrial(row: Row): Trial {
  const name = `Trial ${row['trialId']}, revision ${row['revision']},`;
  return readJson(TrialSchema, row['trial'], name);
}

export function readPlateaus(database: Database, recordingId: number): ClosedPlateau[] {
  const rows = intactRows(database, 'plateau', 'WHERE recordingId = ? ORDER BY id', recordingId);
  return rows.map((row) => readJson(ClosedPlateauSchema, row['plateau'], `Plateau ${row['id']}`));
}

export function readPlateauViews(database: Database, sessionId: string): PlateauView[] {
  return readRecordingRows(database, 'WHERE sessionId = ? ORDER BY id', sessionId).flatMap((row) =>
    readPlateaus(database, row.id).map((plateau) => plateauView(numberOfRow(row), plateau)),
  );
}

/** Null when nothing was learnt, or by a detector with another kind of memory: it learns anew. */
export function readNewestLearnt(database: Database, sessionId: string): Learnt | null {
  const clause =
    'WHERE recordingId IN (SELECT id FROM recording WHERE sessionId = ?) ORDER BY id DESC LIMIT 1';
  const [row] = intactRows(database, 'learnt', clause, sessionId);
  return row === undefined ? null : (LearntSchema.safeParse(JSON.parse(String(row['learnt']))).data ?? null);
}

/** What was last decided about the session's experiment; null when nothing was. */
export function readNewestLedger(database: Database, sessionId: string): Ledger | null {
  const clause =
    'WHERE recordingId IN (SELECT id FROM recording WHERE sessionId = ?) ORDER BY id DESC LIMIT 1';
  const [row] = intactRows(database, 'ledger', clause, sessionId);
  return row === undefined ? null : readJson(LedgerSchema, row['ledger'], `Plan ${row['id']}`);
}

/** The row is intact, so what does not fit was written by a version that knew another shape. */
function readJson<T>(schema: z.ZodType<T>, text: unknown, name: string): T {
  const parsed = schema.safeParse(JSON.parse(String(text)));
  if (parsed.success) return parsed.data;
  const reason = z.prettifyError(parsed.error);
  throw new StoreError('unknown-shape', `${name} was written by a version with another shape of it: ${reason}`);
}
