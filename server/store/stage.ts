/**
 * A data folder of its own for one session that comes from a file: its rows are put in, brought up
 * to date, and looked at, before anything of them goes where trials are kept.
 */
import { dataFiles, prepareDataFolder } from './data-folder.ts';
import { StoreError } from './errors.ts';
import { openStoreReader } from './reader.ts';
import { migrate, MIGRATIONS, SCHEMA_VERSION } from './schema.ts';
import type { SessionRow } from './session-rows.ts';
import { openDatabase, RESULT, resultCode } from './sqlite.ts';
import type { SessionInfo } from './store.ts';
import { adoptRow } from './tables.ts';

/**
 * @param folder empty, or not there yet
 * @param dataVersion that of the data folder which the rows come from
 * @returns the one session that is in it now
 * @throws StoreError `data-damaged`, `unknown-shape`, `data-too-new`: not all of it can be used
 */
export function stageSession(
  folder: string,
  dataVersion: number,
  rows: Iterable<SessionRow>,
): SessionInfo {
  if (dataVersion > SCHEMA_VERSION) {
    throw new StoreError(
      'data-too-new',
      `The session comes from a newer Stillmark (data version ${dataVersion}, this one knows ${SCHEMA_VERSION}). Update Stillmark here, then take it in again.`,
    );
  }
  prepareDataFolder(folder);
  putIn(dataFiles(folder).database, dataVersion, rows);
  return lookThrough(folder);
}

function putIn(path: string, dataVersion: number, rows: Iterable<SessionRow>): void {
  const database = openDatabase(path);
  try {
    // Thrown away if the power fails: it need not be safe, only quick.
    database.exec('PRAGMA journal_mode = OFF; PRAGMA synchronous = OFF; PRAGMA foreign_keys = ON');
    migrate(database, MIGRATIONS.slice(0, dataVersion));
    database.exec('BEGIN');
    for (const { table, row } of rows) {
      if (!adoptRow(database, table, row)) throw misfit('it holds a row twice');
    }
    database.exec('COMMIT');
    migrate(database);
  } catch (error) {
    throw refusedByTables(error) ? misfit('its rows do not fit together', error) : error;
  } finally {
    database.close();
  }
}

/** A number where a text belongs, or a row that belongs to nothing. */
function refusedByTables(error: unknown): boolean {
  const code = resultCode(error);
  return code === RESULT.constraint || code === RESULT.mismatch || code === RESULT.unspecified;
}

/** Reads everything once, as it will be read later. */
function lookThrough(folder: string): SessionInfo {
  const reader = openStoreReader(folder);
  try {
    const [session, ...others] = reader.sessions();
    if (session === undefined || others.length > 0) throw misfit('it is not one session');
    if (!/^[\w-]{1,60}$/.test(session.id)) throw misfit('its id is none of ours');
    for (const { id } of reader.recordings(session.id)) {
      // Decoding checks every input against its schema.
      for (const _input of reader.inputs(id)) continue;
      reader.trialRevisions(id);
      reader.plateaus(id);
    }
    reader.learnt(session.id);
    reader.ledger(session.id);
    return session;
  } finally {
    reader.close();
  }
}

function misfit(what: string, cause?: unknown): StoreError {
  return new StoreError('data-damaged', `What the session holds can't be used: ${what}.`, { cause });
}
