/**
 * The tables, and how a data file of an earlier version becomes one of this version. The version of
 * a file is its `PRAGMA user_version`; a new one gets every migration in turn, so that there is
 * only one way to come to the newest shape. docs/data.md shows the tables.
 */
import { StoreError } from './errors.ts';
import { inTransaction, type Database } from './sqlite.ts';

/** `MIGRATIONS[n]` makes version n + 1 of version n. Never edit one that has been released. */
export const MIGRATIONS: readonly string[] = [
  `
  CREATE TABLE session (
    id TEXT PRIMARY KEY,
    name TEXT NOT NULL,
    startedAt TEXT NOT NULL,
    origin TEXT NOT NULL,
    checksum INTEGER NOT NULL
  ) STRICT;

  CREATE TABLE recording (
    id INTEGER PRIMARY KEY,
    sessionId TEXT NOT NULL REFERENCES session (id),
    startedAt TEXT NOT NULL,
    engineVersion TEXT NOT NULL,
    head TEXT NOT NULL,
    checksum INTEGER NOT NULL
  ) STRICT;
  CREATE INDEX recording_of_session ON recording (sessionId);

  CREATE TABLE input_chunk (
    id INTEGER PRIMARY KEY,
    recordingId INTEGER NOT NULL REFERENCES recording (id),
    number INTEGER NOT NULL,
    data BLOB NOT NULL,
    checksum INTEGER NOT NULL,
    UNIQUE (recordingId, number)
  ) STRICT;

  CREATE TABLE trial_revision (
    id INTEGER PRIMARY KEY,
    sessionId TEXT NOT NULL REFERENCES session (id),
    recordingId INTEGER NOT NULL REFERENCES recording (id),
    trialId INTEGER NOT NULL,
    revision INTEGER NOT NULL,
    trial TEXT NOT NULL,
    checksum INTEGER NOT NULL,
    UNIQUE (sessionId, trialId, revision)
  ) STRICT;
  CREATE INDEX trial_revision_of_recording ON trial_revision (recordingId);

  CREATE TABLE plateau (
    id INTEGER PRIMARY KEY,
    recordingId INTEGER NOT NULL REFERENCES recording (id),
    plateau TEXT NOT NULL,
    checksum INTEGER NOT NULL
  ) STRICT;
  CREATE INDEX plateau_of_recording ON plateau (recordingId);

  CREATE TABLE learnt (
    id INTEGER PRIMARY KEY,
    recordingId INTEGER NOT NULL REFERENCES recording (id),
    learnt TEXT NOT NULL,
    checksum INTEGER NOT NULL
  ) STRICT;
  CREATE INDEX learnt_of_recording ON learnt (recordingId);
  `,
  `
  CREATE TABLE ledger (
    id INTEGER PRIMARY KEY,
    recordingId INTEGER NOT NULL REFERENCES recording (id),
    ledger TEXT NOT NULL,
    checksum INTEGER NOT NULL
  ) STRICT;
  CREATE INDEX ledger_of_recording ON ledger (recordingId);
  `,
  // A recording's head may say what its trials call it: with earlier versions they would be orphans.
  '',
  // Trials may be corrected, rotor and air described, what was found of the rig meant to be so, and
  // inputs say it: earlier versions would show what was measured.
  '',
  // What is said of rotor and air may say more of the rig: earlier versions refuse such inputs.
  '',
  // What can be taken back outlives a recording, and a correction may say how well it is known:
  // earlier versions would find nothing to take back, and refuse such inputs.
  '',
  // Figures of the rig may be fitted to readings, and inputs say them: earlier versions refuse those.
  '',
  // Trials keep the mean of v³ of their samples: earlier versions would lose it when they revise one.
  '',
];

export const SCHEMA_VERSION = MIGRATIONS.length;

export function schemaVersion(database: Database): number {
  return Number(database.get('PRAGMA user_version')?.['user_version']);
}

/** @throws StoreError `data-too-new` for a file that a newer Stillmark wrote */
export function refuseNewer(database: Database, path: string): void {
  const version = schemaVersion(database);
  if (version <= SCHEMA_VERSION) return;
  throw new StoreError(
    'data-too-new',
    `${path} was written by a newer Stillmark (data version ${version}, this one knows ${SCHEMA_VERSION}). ` +
      'Update Stillmark, or choose another data folder with --data.',
  );
}

/** Brings the file up to date: each step whole or not at all. */
export function migrate(database: Database, migrations = MIGRATIONS): void {
  for (let version = schemaVersion(database); version < migrations.length; version++) {
    inTransaction(database, () => {
      database.exec(migrations[version] ?? '');
      database.exec(`PRAGMA user_version = ${version + 1}`);
    });
  }
}
