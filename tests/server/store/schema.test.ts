import { describe, expect, it } from 'vitest';
import { DEFAULT_CONFIGURATION } from '#core/configuration.ts';
import { dataFiles } from '../../../server/store/data-folder.ts';
import { openFolder } from '../../../server/store/open-folder.ts';
import { openStoreReader } from '../../../server/store/reader.ts';
import { readNewestLearnt, readNewestLedger, readNewestTrials } from '../../../server/store/rows.ts';
import { migrate, MIGRATIONS, SCHEMA_VERSION, schemaVersion } from '../../../server/store/schema.ts';
import { openDatabase, type Cell, type Database } from '../../../server/store/sqlite.ts';
import { TABLE_NAMES, TABLES } from '../../../server/store/tables.ts';
import { temporaryFolder } from './folders.ts';
import { bitwiseCrc32 } from './crc32.ts';

const STEPS = [
  'CREATE TABLE reading (id INTEGER PRIMARY KEY, value_mV INTEGER NOT NULL) STRICT',
  'ALTER TABLE reading RENAME COLUMN value_mV TO value_V; UPDATE reading SET value_V = value_V / 1000',
];

function columnsOf(database: Database, table: string): unknown[] {
  return database.all('SELECT name FROM pragma_table_info(?)', table).map(({ name }) => name);
}

describe('migrations', () => {
  it('make every version of the version before, keeping the rows', () => {
    const database = openDatabase(':memory:');
    migrate(database, STEPS.slice(0, 1));
    expect(schemaVersion(database)).toBe(1);
    database.run('INSERT INTO reading (value_mV) VALUES (?)', 4000);
    migrate(database, STEPS);
    expect(schemaVersion(database)).toBe(2);
    expect(database.all('SELECT * FROM reading')).toEqual([{ id: 1, value_V: 4 }]);
    migrate(database, STEPS);
    expect(database.all('SELECT * FROM reading')).toEqual([{ id: 1, value_V: 4 }]);
    database.close();
  });

  it('that fail leave the version before, whole', () => {
    const database = openDatabase(':memory:');
    migrate(database, STEPS.slice(0, 1));
    const broken = 'ALTER TABLE reading RENAME COLUMN value_mV TO value_V; DELETE FROM nowhere';
    expect(() => migrate(database, [...STEPS.slice(0, 1), broken])).toThrow(/nowhere/);
    expect(schemaVersion(database)).toBe(1);
    expect(columnsOf(database, 'reading')).toEqual(['id', 'value_mV']);
    database.close();
  });

  it('end in the tables whose columns the checksums cover', () => {
    const database = openDatabase(':memory:');
    migrate(database);
    expect(schemaVersion(database)).toBe(MIGRATIONS.length);
    const tables = database.all("SELECT name FROM sqlite_schema WHERE type = 'table'").map(({ name }) => name);
    expect(tables.sort()).toEqual([...TABLE_NAMES].sort());
    for (const table of TABLE_NAMES) {
      expect(columnsOf(database, table)).toEqual([...TABLES[table], 'checksum']);
    }
    database.close();
  });
});

describe('a data file of a newer Stillmark', () => {
  it('is refused, not touched, by server and reader', () => {
    const folder = temporaryFolder();
    const files = dataFiles(folder);
    openFolder(files).close();
    const database = openDatabase(files.database);
    database.exec(`PRAGMA user_version = ${SCHEMA_VERSION + 1}`);
    database.close();
    const refusal = { code: 'data-too-new', message: expect.stringContaining('Update Stillmark') as string };
    expect(() => openFolder(files)).toThrow(expect.objectContaining(refusal) as Error);
    expect(() => openStoreReader(folder)).toThrow(expect.objectContaining(refusal) as Error);
    const again = openDatabase(files.database);
    expect(schemaVersion(again)).toBe(SCHEMA_VERSION + 1);
    again.close();
  });
});

/**
 * Rows as version 1 writes them, word for word. When this test fails, the shape of something stored
 * has changed: write a migration, and keep this test as it is.
 */
const VERSION_1 = {
  head:
    '{"coreVersion":1,"origin":"simulated","configuration":{"columns":[],"calibration":{},' +
    '"windPerPulseRate_m":null,"pulsesPerTurn":null},"firstTrialId":1,"learnt":null}',
  trial:
    '{"id":1,"recordingId":1,"revision":1,"state":"final","recorded":true,"start_s":20,"end_s":25.125,' +
    '"declared_s":22.5,"recorded_s":25.130001,"sampleCount":256,"rotorStill":false,' +
    '"factors":{"angle_deg":20},"runId":null,' +
    '"voltage_V":{"value":3.3,"standardUncertainty":0.001,"degreesOfFreedom":12},"current_A":null,' +
    '"power_W":null,"windSpeed_mps":null,"rotorSpeed_radps":null,"powerCoefficient":null,' +
    '"origin":"simulated","simulated":true,"struck":false,"strikeReason":null,"note":null}',
  plateau:
    '{"start_s":20,"end_s":31.5,"declared_s":22.5,"sampleCount":575,"rotorStill":false,' +
    '"estimates":{"power_W":{"mean":0.64,"standardUncertainty":0.003,"degreesOfFreedom":17,' +
    '"effectiveSampleSize":18}},"endReason":"changed","trialId":1}',
  // The lines "4.199,310.0" at 0.5 s and "4.201,310.2" at 0.52 s.
  chunk: '01633ad0627b6007130383899ea1a5a58eb1a1819e0197899e918121986d0400',
};

describe('a data file of version 1', () => {
  it('is read by this version', () => {
    const files = dataFiles(temporaryFolder());
    const database = openDatabase(files.database);
    migrate(database, MIGRATIONS.slice(0, 1));
    const at = '2031-03-04T09:00:00.000Z';
    insert(database, 'session', ['2031-03-04-0a1b2c', 'Morning group', at, 'simulated']);
    insert(database, 'recording', [1, '2031-03-04-0a1b2c', at, '11.3.244.8-node.30', VERSION_1.head]);
    insert(database, 'input_chunk', [1, 1, 1, Buffer.from(VERSION_1.chunk, 'hex')]);
    insert(database, 'trial_revision', [1, '2031-03-04-0a1b2c', 1, 1, 1, VERSION_1.trial]);
    insert(database, 'plateau', [1, 1, VERSION_1.plateau]);
    // A detector's memory has a version of its own; one that is not known is no memory.
    insert(database, 'learnt', [1, 1, '{"version":0}']);
    database.close();

    const folder = openFolder(files);
    expect(folder.problems).toEqual([]);
    const [trial] = readNewestTrials(folder.database, '2031-03-04-0a1b2c');
    expect(trial).toMatchObject({ ...(JSON.parse(VERSION_1.trial) as object), recordedAt: '2031-03-04T09:00:25.130Z' });
    expect(readNewestLearnt(folder.database, '2031-03-04-0a1b2c')).toBeNull();
    folder.close();
    const reader = openStoreReader(files.folder);
    // What could not be set then has its default now.
    const head = reader.recordings('2031-03-04-0a1b2c')[0]?.head;
    expect(head).toMatchObject(JSON.parse(VERSION_1.head) as object);
    expect(head?.configuration.sampleRate_Hz).toBe(DEFAULT_CONFIGURATION.sampleRate_Hz);
    expect([...reader.inputs(1)]).toEqual([
      { kind: 'line', at_s: 0.5, text: '4.199,310.0' },
      { kind: 'line', at_s: 0.52, text: '4.201,310.2' },
    ]);
    expect(reader.problems()).toEqual([]);
    expect(reader.plateaus(1)).toEqual([JSON.parse(VERSION_1.plateau)]);
    reader.close();
  });
});

/** Rows as versions 2 to 6 write them, where they differ from version 1. */
const VERSION_2_LEDGER =
  '{"plan":null,"runs":[],"skipped":["r1 angle_deg=20"],"wantedId":null,"isCovered":true,"predictions":{}}';
const VERSION_3 = {
  trial: VERSION_1.trial.replace('"factors":', '"basis":"keyed","factors":'),
  ledger: VERSION_2_LEDGER.replace('"predictions":{}}', '"predictions":{},"instruments":[],"meters":null}'),
};
/** A rotor that was described before there was a rig to be described with it. */
const VERSION_4_ROTOR = {
  radius_m: 0.2,
  hubRadius_m: 0.03,
  air: { temperature_degC: 20, pressure_Pa: null, altitude_m: null, relativeHumidity: null },
  anemometer: null,
  traverse: null,
};
const VERSION_4 = {
  trial: VERSION_3.trial.replace('"factors":', '"correction":null,"factors":'),
  ledger: VERSION_3.ledger.replace('"meters":null}', `"meters":null,"rotorAndAir":${JSON.stringify(VERSION_4_ROTOR)},"airs":[]}`),
};
/** One that was described with a rig, and findings that were meant to be so. */
const VERSION_5_ROTOR = {
  ...VERSION_4_ROTOR,
  rig: {
    blades: 3,
    chord_m: 0.03,
    angle_deg: null,
    windSpeed_mps: null,
    jetRadius_m: null,
    emfConstant_Vsprad: null,
    windingResistance_Ohm: null,
    staticTorque_Nm: null,
    load: null,
  },
};
const VERSION_5_LEDGER = VERSION_4.ledger
  .replace(JSON.stringify(VERSION_4_ROTOR), JSON.stringify(VERSION_5_ROTOR))
  .replace('"instruments":[]', '"accepted":["no-current current_A"],"instruments":[]');
const VERSION_6_LEDGER = VERSION_5_LEDGER.replace('"airs":[]}', '"airs":[],"undos":[]}');

describe.each([
  [2, VERSION_1.trial, VERSION_2_LEDGER, 'settled', null],
  [3, VERSION_3.trial, VERSION_3.ledger, 'keyed', null],
  [4, VERSION_4.trial, VERSION_4.ledger, 'keyed', VERSION_4_ROTOR],
  [5, VERSION_4.trial, VERSION_5_LEDGER, 'keyed', VERSION_5_ROTOR],
  [6, VERSION_4.trial, VERSION_6_LEDGER, 'keyed', VERSION_5_ROTOR],
] as const)('a data file of version %s', (version, trial, ledger, basis, rotorAndAir) => {
  it('is read by this version: what could not be said then was not said', () => {
    const files = dataFiles(temporaryFolder());
    const database = openDatabase(files.database);
    migrate(database, MIGRATIONS.slice(0, version));
    const at = '2031-03-04T09:00:00.000Z';
    const session = '2031-03-04-0a1b2c';
    insert(database, 'session', [session, 'Morning group', at, 'simulated']);
    insert(database, 'recording', [1, session, at, '11.3.244.8-node.30', VERSION_1.head]);
    insert(database, 'trial_revision', [1, session, 1, 1, 1, trial]);
    insert(database, 'ledger', [1, 1, ledger]);
    database.close();
    const folder = openFolder(files);
    expect(folder.problems).toEqual([]);
    expect(schemaVersion(folder.database)).toBe(SCHEMA_VERSION);
    expect(readNewestTrials(folder.database, session)).toMatchObject([{ id: 1, basis, correction: null }]);
    expect(readNewestLedger(folder.database, session)).toMatchObject({
      skipped: ['r1 angle_deg=20'],
      isCovered: true,
      instruments: [],
      meters: null,
      rotorAndAir,
      undos: [],
      fits: { generator: null, lamp: null },
    });
    folder.close();
  });
});

describe('a trial that has kept its gusts', () => {
  const VERSION_8 = VERSION_4.trial.replace('"factors":', '"windGusts":{"meanCube_m3ps3":65.5,"readings_Hz":12.5},"factors":');

  it('has them again; one of an earlier version has none, and is not given any', () => {
    const files = dataFiles(temporaryFolder());
    const folder = openFolder(files);
    const session = '2031-03-04-0a1b2c';
    const at = '2031-03-04T09:00:00.000Z';
    insert(folder.database, 'session', [session, 'Morning group', at, 'simulated']);
    insert(folder.database, 'recording', [1, session, at, '11.3.244.8-node.30', VERSION_1.head]);
    insert(folder.database, 'trial_revision', [1, session, 1, 1, 1, VERSION_8]);
    insert(folder.database, 'trial_revision', [2, session, 1, 2, 1, VERSION_4.trial.replace('"id":1', '"id":2')]);
    const [kept, earlier] = readNewestTrials(folder.database, session);
    expect(kept?.windGusts).toEqual({ meanCube_m3ps3: 65.5, readings_Hz: 12.5 });
    expect(earlier).not.toHaveProperty('windGusts');
    folder.close();
  });
});

/** Writes a row with a checksum that is computed here from the definition, not by the store. */
function insert(database: Database, table: string, cells: readonly Cell[]): void {
  const bytes = cells.flatMap((cell) => [
    cell instanceof Uint8Array ? cell : Buffer.from(String(cell), 'utf8'),
    Buffer.from('\n'),
  ]);
  const checksum = bitwiseCrc32(Buffer.concat(bytes));
  const places = [...cells, checksum].map(() => '?').join(', ');
  database.run(`INSERT INTO ${table} VALUES (${places})`, ...cells, checksum);
}

describe('a recording whose head has another shape', () => {
  it('can not be derived again, and says so; its trials stand', () => {
    const files = dataFiles(temporaryFolder());
    const opened = openFolder(files);
    const at = '2031-03-04T09:00:00.000Z';
    insert(opened.database, 'session', ['2031-03-04-0a1b2c', 'Morning group', at, 'simulated']);
    insert(opened.database, 'recording', [1, '2031-03-04-0a1b2c', at, '11.3.244.8-node.30', '{"coreVersion":0}']);
    insert(opened.database, 'trial_revision', [1, '2031-03-04-0a1b2c', 1, 1, 1, VERSION_1.trial]);
    expect(readNewestTrials(opened.database, '2031-03-04-0a1b2c')).toHaveLength(1);
    opened.close();
    const reader = openStoreReader(files.folder);
    const refusal = expect.objectContaining({ code: 'unknown-shape' }) as Error;
    expect(() => reader.recordings('2031-03-04-0a1b2c')).toThrow(refusal);
    reader.close();
  });
});

describe('the checksum', () => {
  it('of these tests has the published check value', () => {
    // CRC-32/ISO-HDLC of "123456789" in the catalogue of parametrised CRC algorithms.
    expect(bitwiseCrc32(new TextEncoder().encode('123456789'))).toBe(0xcbf43926);
  });
});
