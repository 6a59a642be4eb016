/**
 * A session from another data folder, taken in: all of it or nothing. Rows get numbers of this
 * folder; what they say, and by what number a recording's own trials call it, stays.
 */
import { createHash } from 'node:crypto';
import { isDeepStrictEqual } from 'node:util';
import { readRecordings, readSessions } from './rows.ts';
import { readSessionRows } from './session-rows.ts';
import type { Cell, Database, Row } from './sqlite.ts';
import type { RecordingInfo, SessionInfo, TakenIn } from './store.ts';
import { insertRow, nextId, TABLES, type Table } from './tables.ts';
import { numberOf } from '#core/recording.ts';

/** The tables of what a recording holds, and what tells two rows of one recording apart. */
const HELD = ['input_chunk', 'trial_revision', 'plateau', 'learnt', 'ledger'] as const;
type Held = (typeof HELD)[number];

/**
 * Call it in a transaction.
 * @param staged a data folder of this version that holds one session (stage.ts)
 */
export function takeIn(database: Database, staged: Database): TakenIn {
  const [session] = readSessions(staged);
  if (session === undefined) throw new Error('nothing is staged');
  const kin = readSessions(database).filter(
    ({ id }) => id === session.id || id.startsWith(`${session.id}-`),
  );
  if (kin.length === 0) return { outcome: 'new', session: copyAs(session, staged, database) };
  for (const known of kin) {
    const plan = additionsTo(known, database, session, staged);
    if (plan === null) continue;
    if (plan.length === 0) return { outcome: 'known', session: known };
    for (const addition of plan) add(addition, known.id, staged, database);
    return { outcome: 'grown', session: known };
  }
  const id = `${session.id}-${fingerprint(staged, session.id)}`;
  const apart = { ...session, id, name: `${session.name} (2)` };
  return { outcome: 'apart', session: copyAs(apart, staged, database, session.id) };
}

/** A recording of the staged session, with what of it is here already. */
interface Addition {
  readonly from: RecordingInfo;
  /** Its number here; null when nothing of it is here. */
  readonly to: number | null;
  /** How many rows of each table are here. */
  readonly have: Readonly<Record<Held, number>>;
}

const NOTHING: Addition['have'] = { input_chunk: 0, trial_revision: 0, plateau: 0, learnt: 0, ledger: 0 };

/**
 * What the staged session holds beyond the known one; nothing when the known one holds all of it.
 * Null when each holds something that the other does not: they went on apart.
 */
function additionsTo(
  known: SessionInfo,
  database: Database,
  session: SessionInfo,
  staged: Database,
): Addition[] | null {
  const here = new Map(readRecordings(database, known.id).map((one) => [numberOf(one), one]));
  const additions: Addition[] = [];
  let isMoreHere = false;
  for (const from of readRecordings(staged, session.id)) {
    const same = here.get(numberOf(from));
    here.delete(numberOf(from));
    if (same === undefined) {
      additions.push({ from, to: null, have: NOTHING });
      continue;
    }
    if (!isSameRecording(from, same)) return null;
    const have = { ...NOTHING };
    let isLonger = false;
    for (const table of HELD) {
      const { common, left, right } = compareRows(table, [staged, from.id], [database, same.id]);
      if (left > common && right > common) return null;
      have[table] = common;
      isLonger ||= left > common;
      isMoreHere ||= right > common;
    }
    if (isLonger) additions.push({ from, to: same.id, have });
  }
  isMoreHere ||= here.size > 0;
  if (additions.length === 0) return [];
  return isMoreHere ? null : additions;
}

function isSameRecording(one: RecordingInfo, other: RecordingInfo): boolean {
  return (
    one.startedAt === other.startedAt &&
    one.engineVersion === other.engineVersion &&
    isDeepStrictEqual({ ...one.head, number: 0 }, { ...other.head, number: 0 })
  );
}

/** How many rows two recordings begin with alike, and how many each has. */
function compareRows(
  table: Held,
  [left, leftId]: readonly [Database, number],
  [right, rightId]: readonly [Database, number],
): { common: number; left: number; right: number } {
  const lefts = rowsOf(table, left, leftId)[Symbol.iterator]();
  const counts = { common: 0, left: 0, right: 0 };
  let areAlike = true;
  for (const row of rowsOf(table, right, rightId)) {
    counts.right += 1;
    const other = lefts.next();
    if (other.done === true) {
      areAlike = false;
      continue;
    }
    counts.left += 1;
    areAlike &&= isSameContent(table, row, other.value);
    if (areAlike) counts.common += 1;
  }
  while (lefts.next().done !== true) counts.left += 1;
  return counts;
}

function rowsOf(table: Held, database: Database, recordingId: number): Iterable<Row> {
  return database.iterate(`SELECT * FROM ${table} WHERE recordingId = ? ORDER BY id`, recordingId);
}

/** Numbers of rows, recordings and sessions belong to a folder; the rest is what was recorded. */
const OF_THE_FOLDER: readonly string[] = ['id', 'recordingId', 'sessionId'];

function isSameContent(table: Held, one: Row, other: Row): boolean {
  return TABLES[table]
    .filter((column) => !OF_THE_FOLDER.includes(column))
    .every((column) => isDeepStrictEqual(bytesAsText(one[column]), bytesAsText(other[column])));
}

function bytesAsText(cell: unknown): unknown {
  return cell instanceof Uint8Array ? Buffer.from(cell).toString('base64') : cell;
}

function copyAs(
  session: SessionInfo,
  staged: Database,
  database: Database,
  stagedId: string = session.id,
): SessionInfo {
  const { id, name, startedAt, origin } = session;
  insertRow(database, 'session', { id, name, startedAt, origin });
  for (const from of readRecordings(staged, stagedId)) {
    add({ from, to: null, have: NOTHING }, id, staged, database);
  }
  return session;
}

function add(
  { from, to, have }: Addition,
  sessionId: string,
  staged: Database,
  database: Database,
): void {
  const recordingId = to ?? copyRecording(from, sessionId, database);
  for (const table of HELD) {
    let place = 0;
    for (const row of rowsOf(table, staged, from.id)) {
      place += 1;
      if (place <= have[table]) continue;
      insertRow(database, table, {
        ...(row as Record<string, Cell>),
        id: nextId(database, table),
        recordingId,
        ...(table === 'trial_revision' && { sessionId }),
      } as Parameters<typeof insertRow<Table>>[2]);
    }
  }
}

function copyRecording(from: RecordingInfo, sessionId: string, database: Database): number {
  const { startedAt, engineVersion } = from;
  const id = nextId(database, 'recording');
  const head = JSON.stringify({ ...from.head, number: numberOf(from) });
  insertRow(database, 'recording', { id, sessionId, startedAt, engineVersion, head });
  return id;
}

/** Eight hexadecimal digits of what the session holds: the same file is known again by them. */
function fingerprint(staged: Database, sessionId: string): string {
  const hash = createHash('sha256');
  for (const { row } of readSessionRows(staged, sessionId)) hash.update(`${String(row['checksum'])}\n`);
  return hash.digest('hex').slice(0, 8);
}
