/** A session's file, written and read: what is in it, and that its trials derive from it again. */
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { createHash } from 'node:crypto';
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createRowReader, splitRow } from '#core/csv-rows.ts';
import { FileError } from '../../../server/carry/errors.ts';
import { plateauColumns } from '../../../server/carry/other-columns.ts';
import { packageTarget } from '../../../server/carry/package-target.ts';
import { unpackSession } from '../../../server/carry/unpack.ts';
import { writePackage } from '../../../server/carry/write-package.ts';
import { openStoreReader } from '../../../server/store/reader.ts';
import type { SessionInfo } from '../../../server/store/store.ts';
import { experimentInputs, NASTY_NOTE, recordMore, recordSession, strikeAndNote } from '../../support/recorded-session.ts';
import { runCommand, startServer } from '../../support/server-process.ts';
import { makeFolder, removeFolder } from '../store/folders.ts';

let folder = '';
let data = '';
let session: SessionInfo;
let files: Record<string, Uint8Array> = {};

const at = (name: string): string => join(folder, name);

beforeAll(async () => {
  folder = makeFolder();
  data = at('data');
  session = await recordSession(data, 'Group A, =first', experimentInputs());
  await recordMore(data, session, strikeAndNote);
  const reader = openStoreReader(data);
  writePackage(reader, session, packageTarget(at('a.zip')), { program: '0.0.0', licence: null });
  reader.close();
  files = unzipSync(readFileSync(at('a.zip')));
}, 60_000);
afterAll(() => removeFolder(folder));

const textOf = (name: string): string => strFromU8(files[name] ?? new Uint8Array(0));

/** A table of the package, by column. */
function rowsOf(name: string): Record<string, string>[] {
  const reader = createRowReader(100_000);
  const rows = [...reader.push(textOf(name)), ...reader.end()].map(({ text }) => splitRow(text, ',') ?? []);
  const [header = [], ...body] = rows;
  return body.map((cells) => Object.fromEntries(header.map((column, place) => [column, cells[place] ?? ''])));
}

interface Descriptor {
  readonly name: string;
  readonly title: string;
  readonly simulated: boolean;
  readonly licenses?: unknown;
  readonly resources: readonly {
    readonly name: string;
    readonly path: string;
    readonly bytes: number;
    readonly hash: string;
    readonly type?: string;
    readonly schema?: { readonly fields: readonly { readonly name: string; readonly type: string; readonly description: string }[] };
  }[];
}
const descriptor = (): Descriptor => JSON.parse(textOf('datapackage.json')) as Descriptor;

describe('the descriptor', () => {
  // https://datapackage.org/standard/data-package/ and /data-resource/, version 2.0: names, paths,
  // bytes and hash; a resource has exactly one of path and data.
  it('names every file as the Data Package standard wants, with its size and hash', () => {
    const { resources, name } = descriptor();
    expect(name).toMatch(/^[-a-z0-9._]+$/);
    expect(new Set(resources.map((one) => one.name)).size).toBe(resources.length);
    for (const { name, path, bytes, hash } of resources) {
      expect(name).toMatch(/^[-a-z0-9._]+$/);
      expect(path).toMatch(/^[a-z0-9][-a-z0-9.]*$/);
      const file = files[path] ?? new Uint8Array(0);
      expect(file.length, path).toBe(bytes);
      expect(`sha256:${createHash('sha256').update(file).digest('hex')}`, path).toBe(hash);
    }
    const described = [...resources.map(({ path }) => path), 'README.txt', 'datapackage.json'];
    expect(Object.keys(files).sort()).toEqual(described.sort());
  });

  // Table Schema 2.0: the physical values of number, integer, boolean and datetime.
  it('describes every column, and every field is of the type that it says', () => {
    const lexical: Readonly<Record<string, RegExp>> = {
      integer: /^-?\d+$/,
      number: /^-?\d+(\.\d+)?(e[-+]?\d+)?$/i,
      boolean: /^(true|false)$/,
      datetime: /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ$/,
      string: /^[\s\S]*$/,
    };
    for (const { path, schema, type } of descriptor().resources) {
      if (schema === undefined) continue;
      expect(type).toBe('table');
      const rows = rowsOf(path);
      const header = textOf(path).split('\r\n', 1)[0];
      expect(header).toBe(schema.fields.map(({ name }) => name).join(','));
      for (const field of schema.fields) {
        expect(field.description.length, field.name).toBeGreaterThan(3);
        for (const row of rows) {
          const cell = row[field.name] ?? '?';
          if (cell !== '') expect(cell, `${path} ${field.name}`).toMatch(lexical[field.type] ?? /never/);
        }
      }
    }
  });

  it('says loudly that nothing was measured', () => {
    expect(descriptor().simulated).toBe(true);
    expect(descriptor().title).toBe('SIMULATED: Group A, =first');
    expect(textOf('README.txt').startsWith('SIMULATED: ')).toBe(true);
    expect(rowsOf('trials.csv').every(({ simulated }) => simulated === 'true')).toBe(true);
    expect(descriptor().licenses).toBeUndefined();
  });
});

describe('the tables', () => {
  it('hold every trial with its level, its uncertainty and its marks', () => {
    const reader = openStoreReader(data);
    const trials = reader.trials(session.id);
    reader.close();
    const rows = rowsOf('trials.csv');
    expect(rows).toHaveLength(trials.length);
    for (const [place, trial] of trials.entries()) {
      expect(rows[place]).toMatchObject({
        trial: String(trial.id),
        angle_deg: String(trial.factors['angle_deg'] ?? ''),
        power_W: String(trial.power_W?.value ?? ''),
        u_power_W: String(trial.power_W?.standardUncertainty ?? ''),
        checksum: trial.checksum,
      });
    }
    expect(rows[0]).toMatchObject({ struck: 'true', strike_reason: "'-1 blade loose" });
    expect(rows[1]?.['note']).toBe(`'${NASTY_NOTE.replace('\r\n', '\n')}`);
  });

  it('hold brief and interrupted plateaus, the runs, and what people did', () => {
    const reader = openStoreReader(data);
    const plateaus = reader.recordings(session.id).flatMap(({ id }) => reader.plateaus(id));
    reader.close();
    const shown = rowsOf('plateaus.csv').map(({ kind, trial }) => [kind, trial]);
    expect(shown).toEqual(plateaus.map(({ trialId }) => ['trial', String(trialId)]));
    const kindOf = (change: object) =>
      plateauColumns().find(({ name }) => name === 'kind')?.of({ recording: 1, plateau: { ...plateaus[0]!, ...change } });
    expect(kindOf({ trialId: null })).toBe('brief');
    expect(kindOf({ trialId: null, endReason: 'interrupted' })).toBe('interrupted');
    const runs = rowsOf('plan.csv');
    expect(runs).toHaveLength(15);
    const counts = ({ struck, recorded, run }: Record<string, string>) => struck === 'false' && recorded === 'true' && run !== '';
    const counted = rowsOf('trials.csv').filter(counts);
    const given = runs.flatMap(({ trials = '' }) => (trials === '' ? [] : trials.split(' ')));
    expect(given.sort()).toEqual(counted.map(({ trial }) => trial).sort());
    expect(given.length).toBeGreaterThan(1);
    expect(rowsOf('deeds.csv').map(({ deed }) => deed)).toEqual(['plan', 'strike', 'note']);
    expect(JSON.parse(textOf('plan.json'))).toMatchObject({ plan: { design: 'single', rounds: 3 } });
  });

  it('hold samples in which `stillmark plateaus` finds what was found live', async () => {
    const found = await runCommand('plateaus', await inFolder('samples-1.csv'), '--json');
    expect(found.code).toBe(0);
    const { plateaus, samples } = JSON.parse(found.stdout) as { plateaus: { start_s: number }[]; samples: number };
    expect(samples).toBe(rowsOf('samples-1.csv').length);
    // One file knows nothing of the cable that was pulled: but for those, the same starts.
    const live = new Set(rowsOf('plateaus.csv').map(({ start_s }) => Number(start_s)));
    const same = plateaus.filter(({ start_s }) => live.has(start_s));
    expect(same.length).toBeGreaterThan(0.8 * plateaus.length);
  });
});

async function inFolder(name: string): Promise<string> {
  const to = at('unpacked');
  if (!readdirSync(folder).includes('unpacked')) {
    const { code } = await runCommand('export', '--data', data, '--to', to);
    expect(code).toBe(0);
  }
  return join(to, name);
}

describe('the history', () => {
  it('has every state of each trial, the newest as trials.csv has it, the first as it was logged', () => {
    const states = rowsOf('revisions.csv');
    for (const trial of rowsOf('trials.csv')) {
      const own = states.filter((one) => one['trial'] === trial['trial']);
      expect(own.map(({ revision }) => Number(revision))).toEqual(own.map((_, i) => i + 1));
      expect(own.at(-1)?.['checksum']).toBe(trial['checksum']);
    }
    const [logged] = states.filter(({ state }) => state === 'logged');
    const final = states.filter(({ trial, state }) => trial === logged?.['trial'] && state === 'final');
    expect(Number(final.at(-1)?.['sample_count'])).toBeGreaterThan(Number(logged?.['sample_count']));
  });
});

describe('the budgets', () => {
  it('add up to the uncertainty of each trial’s power', () => {
    const trials = rowsOf('trials.csv').filter(({ u_power_W }) => u_power_W !== '');
    const rows = rowsOf('budgets.csv');
    expect(new Set(rows.map(({ trial }) => trial))).toEqual(new Set(trials.map(({ trial }) => trial)));
    for (const { trial, u_power_W } of trials) {
      const own = rows.filter((row) => row['trial'] === trial);
      const squares = own.reduce((sum, { contribution_W }) => sum + Number(contribution_W) ** 2, 0);
      expect(Math.sqrt(squares) / Number(own[0]?.['u_power_W'])).toBeCloseTo(1, 9);
      // Nothing is known of this rig's instruments: the scatter is all there is.
      expect(Number(own[0]?.['u_power_W'])).toBeGreaterThanOrEqual(Number(u_power_W) * (1 - 1e-9));
      expect(own[0]?.['gaps']).toContain('voltage');
    }
  });
});

describe('the command', () => {
  it('writes the same as a folder and, again, the same archive', async () => {
    await inFolder('trials.csv');
    expect(readdirSync(at('unpacked')).sort()).toEqual(Object.keys(files).sort());
    expect(readFileSync(join(at('unpacked'), 'session.jsonl'))).toEqual(Buffer.from(files['session.jsonl'] ?? []));
    const [one, two] = [at('one.zip'), at('two.zip')];
    for (const to of [one, two]) expect((await runCommand('export', '--data', data, '--session', session.id, '--to', to)).code).toBe(0);
    expect(readFileSync(one)).toEqual(readFileSync(two));
    const again = await runCommand('export', '--data', data, '--to', one);
    expect(again.code).toBe(2);
    expect(again.stderr).toContain('one.zip is there already');
  });

  it('derives the trials again from the file alone', async () => {
    const { code, stdout } = await runCommand('replay', at('a.zip'), '--json');
    expect(code, stdout).toBe(0);
    const { sessions } = JSON.parse(stdout) as { sessions: { session: string; stored: number; derived: number; differences: unknown[] }[] };
    expect(sessions).toMatchObject([{ session: session.id, recordings: 2, differences: [], damaged: [] }]);
    expect(sessions[0]?.derived).toBe(sessions[0]?.stored);
    expect(sessions[0]?.stored).toBeGreaterThan(6);
  });

  it('plays the file from its folder or any other, and keeps nothing of it', async () => {
    const [empty, source] = [at('empty'), `replay:${at('a.zip')}`];
    const server = await startServer('--data', empty, '--source', source, '--speed', '1000');
    const reader = openStoreReader(data);
    const stored = reader.recordings(session.id).flatMap(({ id }) => reader.trialRevisions(id));
    reader.close();
    const newest = new Map(stored.map((trial) => [trial.id, trial]));
    const shown = async () => (await server.trials()).map(({ id, revision, power_W }) => [id, revision, power_W]);
    const wanted = [...newest.values()].map(({ id, revision, power_W }) => [id, revision, power_W]);
    await expect.poll(shown, { timeout: 20_000 }).toEqual(wanted);
    expect((await server.status()).playing).toMatchObject({ speed: 1000, recordings: 2 });
    expect(await server.stop()).toBe(0);
    const kept = openStoreReader(empty);
    expect(kept.sessions()).toEqual([]);
    kept.close();
  });

  it('refuses what is no file of a session with one sentence', async () => {
    writeFileSync(at('no.zip'), 'PK');
    for (const [args, code] of [
      [['serve', '--port', '0', '--data', at('empty'), '--source', `replay:${at('no.zip')}`], 2],
      [['replay', at('no.zip')], 2],
      [['replay', at('not-there.zip')], 2],
      [['replay', at('a.zip'), '--data', data], 2],
      [['export', '--data', data], 2],
      [['export', '--data', data, '--session', 'x', '--to', at('x.zip')], 2],
      [['export', '--data', data, '--to', at('x.zip'), '--licence', 'my own'], 2],
    ] as const) {
      const result = await runCommand(...args);
      expect(result.code, args.join(' ')).toBe(code);
      expect(result.stderr.trim().split('\n')).toHaveLength(1);
      expect(result.stdout).toBe('');
    }
  });
});

/** What unpacking these files gives: the session's id, or the code of the refusal. */
let unpackedCount = 0;
function unpackOf(bytes: Uint8Array): string {
  unpackedCount += 1;
  const path = at(`given-${unpackedCount}.zip`);
  writeFileSync(path, bytes);
  const stage = at(`stage-${unpackedCount}`);
  mkdirSync(stage);
  try {
    return unpackSession(path, stage).id;
  } catch (error) {
    if (error instanceof FileError) return error.code;
    throw error;
  } finally {
    removeFolder(stage);
    removeFolder(path);
  }
}

/** The file with another session.jsonl or descriptor. */
function withText(name: string, text: string): Uint8Array {
  return zipSync({ ...files, [name]: strToU8(text) }, { level: 1 });
}

describe('a file that was altered', () => {
  it('is taken as it is, whatever else lies in it and by whatever name', () => {
    expect(unpackOf(zipSync({ ...files, '../../evil.sh': strToU8('x'), '/etc/x': strToU8('y') }, { level: 1 }))).toBe(session.id);
  });

  it('is refused when a row is not what was written, is missing its session, or comes twice', () => {
    const lines = textOf('session.jsonl').trimEnd().split('\n');
    expect(unpackOf(withText('session.jsonl', `${lines.join('\n')}\n`))).toBe(session.id);
    const trial = lines.findIndex((line) => line.includes('"trial_revision"'));
    const altered = lines.with(trial, (lines[trial] ?? '').replace('struck\\":false', 'struck\\":true'));
    expect(altered[trial]).not.toBe(lines[trial]);
    expect(unpackOf(withText('session.jsonl', `${altered.join('\n')}\n`))).toBe('file-damaged');
    expect(unpackOf(withText('session.jsonl', `${lines.slice(1).join('\n')}\n`))).toBe('file-damaged');
    expect(unpackOf(withText('session.jsonl', `${[...lines, lines[3] ?? ''].join('\n')}\n`))).toBe('file-damaged');
    expect(unpackOf(withText('session.jsonl', lines.join('\n')))).toBe('file-damaged');
    expect(unpackOf(withText('session.jsonl', ''))).toBe('file-damaged');
  });

  it('is refused when it is newer, or none of ours', () => {
    const own = JSON.parse(textOf('datapackage.json')) as { stillmark: object };
    const with_ = (change: object): Uint8Array =>
      withText('datapackage.json', JSON.stringify({ ...own, stillmark: { ...own.stillmark, ...change } }));
    expect(unpackOf(with_({ dataVersion: 99 }))).toBe('file-too-new');
    expect(unpackOf(with_({ format: 2 }))).toBe('file-too-new');
    expect(unpackOf(withText('datapackage.json', '{"resources":[]}'))).toBe('file-not-session');
    expect(unpackOf(withText('datapackage.json', 'x'))).toBe('file-not-session');
  });

  it('in any byte is refused, or is the session: never a crash', () => {
    const whole = readFileSync(at('a.zip'));
    fc.assert(
      fc.property(fc.nat(whole.length - 1), fc.integer({ min: 1, max: 255 }), (place, change) => {
        const altered = Buffer.from(whole);
        altered[place] = (altered[place] ?? 0) ^ change;
        expect([session.id, 'file-damaged', 'file-not-session', 'file-too-large', 'file-too-new']).toContain(unpackOf(altered));
        expect(unpackOf(whole.subarray(0, place))).toMatch(/^file-/);
      }),
      { numRuns: 12 },
    );
  });
});
