/** The command line as a person meets it: what it prints, and the exit code. */
import { once } from 'node:events';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { TrialView } from '#core/live-messages.ts';
import { createRandom, normal } from '#core/virtual-rig/random.ts';
import { dataFiles } from '../../../server/store/data-folder.ts';
import { openDatabase } from '../../../server/store/sqlite.ts';
import { ROTOR_AND_AIR } from '../../support/budgets.ts';
import { pipeInto, runCommand, startServer, until } from '../../support/server-process.ts';

let folder = '';
const at = (name: string): string => join(folder, name);

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'stillmark-commands-'));
  writeFileSync(at('recording.csv'), recording());
  writeFileSync(at('other.csv'), 'name,colour\nfan,white\n');
  writeFileSync(at('bad-rows.csv'), 'time_s,voltage_V\n0,2.1\nx,2.1\n0.02,12abc\n0.04,2.2\n');
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Stopped, 2 V for 15 s, 3 V for 15 s, as a recording at 50 samples a second. */
function recording(): string {
  const random = createRandom(9);
  const rows = ['time_s,voltage_V,current_A,windSpeed_mps,room'];
  let voltage_V = 0;
  for (let index = 0; index < 35 * 50; index += 1) {
    const time_s = index / 50;
    const target_V = time_s < 4 ? 0 : time_s < 19 ? 2 : 3;
    voltage_V += (target_V - voltage_V) * 0.04;
    const measured_V = voltage_V * (1 + 0.004 * normal(random));
    const wind_mps = target_V === 0 ? 0 : 4 + 0.02 * normal(random);
    rows.push(`${time_s.toFixed(2)},${measured_V.toFixed(4)},${(measured_V / 20).toFixed(5)},${wind_mps.toFixed(3)},12`);
  }
  return `${rows.join('\r\n')}\r\n`;
}

describe('options', () => {
  const AIR = ['--pressure', '101325', '--humidity', '0.5'];
  it.each([
    [['air', '--temperature', '20', '--temperature', '30', ...AIR], '--temperature is given twice.'],
    [['air', '--temperature', '--pressure', '101325'], '--temperature is followed by nothing.'],
    [['air', '--temperature'], '--temperature is followed by nothing.'],
    [['air', '--temperature', '2,5', ...AIR], 'not "2,5". With a decimal point: 2.5.'],
    [['compare', '', '--factor', 'a', '--response', 'y'], 'An argument is empty'],
  ])('%j', async (argv, sentence) => {
    const { code, stderr } = await runCommand(...argv);
    expect([code, stderr.includes(sentence)]).toEqual([2, true]);
  });
});

describe('stillmark plateaus', () => {
  it('finds the plateaus of a recording', async () => {
    const { code, stdout, stderr } = await runCommand('plateaus', at('recording.csv'), '--json');
    expect(code).toBe(0);
    expect(stderr).toContain('room');
    const found = JSON.parse(stdout) as {
      samples: number;
      faults: Record<string, number>;
      plateaus: {
        start_s: number;
        end_s: number;
        declared_s: number;
        endReason: string;
        mean: Record<string, number>;
        standardUncertainty: Record<string, number>;
        degreesOfFreedom: Record<string, number>;
        effectiveSampleSize: Record<string, number>;
      }[];
    };
    expect(found.samples).toBe(35 * 50);
    expect(Object.keys(found.faults).sort()).toEqual([
      'checksum', 'fieldCount', 'malformed', 'notFinite', 'outOfRange', 'sequenceGap', 'tooLong',
    ]);
    expect(Object.values(found.faults)).toEqual([0, 0, 0, 0, 0, 0, 0]);
    expect(found.plateaus.map(({ endReason }) => endReason)).toEqual(['changed', 'end']);
    for (const [index, voltage_V] of [2, 3].entries()) {
      const plateau = found.plateaus[index];
      const keys = ['current_A', 'power_W', 'voltage_V', 'windSpeed_mps'];
      expect(Object.keys(plateau?.mean ?? {}).sort()).toEqual(keys);
      expect(Object.keys(plateau?.effectiveSampleSize ?? {}).sort()).toEqual(keys);
      expect(Math.abs((plateau?.mean['voltage_V'] ?? 0) / voltage_V - 1)).toBeLessThan(0.005);
      expect(plateau?.standardUncertainty['power_W']).toBeGreaterThan(0);
      expect(plateau?.degreesOfFreedom['power_W']).toBeGreaterThan(1);
      expect(plateau?.declared_s).toBeGreaterThan(plateau?.start_s ?? Infinity);
    }
  });

  it('names bad rows by file and line, and goes on', async () => {
    const { code, stdout, stderr } = await runCommand('plateaus', at('bad-rows.csv'), '--json');
    expect(code).toBe(0);
    expect(stderr).toContain('bad-rows.csv line 3: malformed (no row of numbers; it is left out)');
    expect(stderr).toContain('bad-rows.csv line 4: malformed');
    expect((JSON.parse(stdout) as { samples: number }).samples).toBe(2);
  });

  it('says once of a column whose numbers no rig gives that its unit must be wrong, and converts nothing', async () => {
    const inUnits = (voltage: number, current: number): string =>
      recording().replaceAll(/^([\d.]+),([-\d.]+),([-\d.]+)/gm, (_, time: string, v: string, i: string) => {
        return `${time},${voltage * Number(v)},${current * Number(i)}`;
      });
    writeFileSync(at('milliamperes.csv'), inUnits(1, 500));
    writeFileSync(at('millivolts.csv'), inUnits(1000, 1));
    const [amperes, volts] = await Promise.all(
      ['milliamperes.csv', 'millivolts.csv'].map((name) => runCommand('plateaus', at(name), '--json')),
    );
    const remarks = (stderr = ''): string[] => stderr.match(/No rig of this kind.*/g) ?? [];
    expect(remarks(amperes?.stderr)).toEqual([expect.stringMatching(/more than 5 A,.*current_mA/)]);
    expect(amperes?.stderr).toMatch(/milliamperes.csv line \d+: current of \d/);
    expect(remarks(volts?.stderr)).toEqual([expect.stringMatching(/more than 60 V,.*voltage_mV/)]);
    expect([amperes?.code, volts?.code]).toEqual([0, 0]);
    const { plateaus } = JSON.parse(amperes?.stdout ?? '') as { plateaus: FoundPlateau[] };
    expect(plateaus.map(({ mean }) => Math.round(mean['current_A'] ?? 0))).toEqual([50, 75]);
  });

  it('tells each plateau of what is piped in as soon as it has ended, and the rest at Ctrl-C', async () => {
    const child = pipeInto('plateaus', '-', '--json');
    const ended = once(child, 'close');
    // As if it never ended; in pieces that tear rows apart.
    for (const piece of recording().match(/[^]{1,1000}/g) ?? []) child.stdin.write(piece);
    let said = '';
    for await (const text of child.stdout.setEncoding('utf8')) {
      said += String(text);
      if (!child.killed && said.includes('"effectiveSampleSize"')) child.kill('SIGINT');
    }
    const file = JSON.parse((await runCommand('plateaus', at('recording.csv'), '--json')).stdout) as { plateaus: unknown[] };
    expect(said).toContain('"endReason": "changed"');
    if (process.platform === 'win32') return;
    expect((await ended)[0]).toBe(130);
    const piped = JSON.parse(said) as { plateaus: unknown[]; samples: number };
    expect(piped.plateaus[0]).toEqual(file.plateaus[0]);
    expect(piped.samples).toBeLessThanOrEqual(35 * 50);
  });

  it('gives to the last bit what a session gives that is fed with the same readings', async () => {
    const { stdout } = await runCommand('plateaus', at('recording.csv'), '--json');
    const { plateaus } = JSON.parse(stdout) as { plateaus: FoundPlateau[] };
    const server = await startServer('--data', at('replayed'), '--source', `replay:${at('recording.csv')}`, '--speed', '100');
    try {
      const isDone = (trials: TrialView[]): boolean => trials[1]?.state === 'final';
      const trials = await until(server.trials, isDone, 20);
      expect(trials.map(asFound)).toEqual(plateaus.map(({ endReason: _, effectiveSampleSize: __, ...found }) => found));
    } finally {
      await server.stop();
    }
  });
});

interface FoundPlateau {
  readonly endReason: string;
  readonly effectiveSampleSize: Record<string, number>;
  readonly mean: Record<string, number>;
}

/** A trial as `plateaus` would print it. */
function asFound({ start_s, end_s, declared_s, sampleCount, ...trial }: TrialView) {
  const { voltage_V, current_A, power_W, windSpeed_mps } = trial;
  const estimates = Object.entries({ voltage_V, current_A, power_W, windSpeed_mps });
  const all = (field: 'value' | 'standardUncertainty' | 'degreesOfFreedom') =>
    Object.fromEntries(estimates.map(([name, estimate]) => [name, estimate?.[field]]));
  return {
    start_s,
    end_s,
    declared_s,
    sampleCount,
    mean: all('value'),
    standardUncertainty: all('standardUncertainty'),
    degreesOfFreedom: all('degreesOfFreedom'),
  };
}

const UNMAKEABLE = process.platform === 'linux' ? '/proc/no-folder/data' : join(import.meta.filename, 'data');

describe('stillmark air', () => {
  const ROOM = ['--temperature', '20', '--humidity', '0.5'];

  it('gives the object of the contract (CIPM-2007, Metrologia 45 (2008) 149)', async () => {
    const { code, stdout } = await runCommand('air', ...ROOM, '--pressure', '101325', '--json');
    expect(code).toBe(0);
    const found = JSON.parse(stdout) as Record<string, unknown>;
    expect(found).toEqual({
      density_kgpm3: expect.closeTo(1.199314, 6) as number,
      method: 'CIPM-2007',
      standardUncertainty_kgpm3: expect.closeTo(0.0029, 4) as number,
    });
  });

  it('takes a number with a plus sign or a power of ten', async () => {
    const said = ['--temperature', '+20', '--humidity', '5e-1', '--pressure', '1.01325e5', '--json'];
    const { stdout } = await runCommand('air', ...said);
    expect(stdout).toBe((await runCommand('air', ...ROOM, '--pressure', '101325', '--json')).stdout);
  });

  it('says it in a sentence, of cold air on a mountain too', async () => {
    const room = await runCommand('air', ...ROOM, '--pressure', '101325');
    expect(room.stdout).toContain('1.199 ± 0.006');
    const high = await runCommand('air', '--temperature', '-5', '--humidity', '0.5', '--altitude', '2000');
    expect([high.code, high.stderr]).toEqual([0, '']);
    expect(high.stdout).toContain('by IEC 61400-12-1');
    expect(high.stdout).toContain('about the 795 hPa of this height');
  });
});

describe('bad input gets one sentence and the right exit code', () => {
  const cases: [string, string[], number, string][] = [
    ['an unknown command', ['measure'], 2, 'no command "measure"'],
    ['an unknown option', ['serve', '--fast'], 2, '--fast'],
    ['a bad port', ['serve', '--port', 'seven'], 2, '--port'],
    ['a port that browsers block', ['serve', '--port', '6666'], 2, '--port 6670'],
    ['a bad speed', ['serve', '--speed', '0'], 2, '--speed'],
    ['a bad source', ['serve', '--source', 'radio'], 2, '--source'],
    ['a port that does not exist', ['serve', '--source', 'serial:/dev/no-such-port'], 2, '/dev/no-such-port'],
    ['a replay of a missing file', ['serve', '--source', 'replay:no-such.csv'], 2, 'no-such.csv'],
    ['no file', ['plateaus'], 2, 'FILE.csv'],
    ['a missing file', ['plateaus', 'no-such.csv'], 2, 'no-such.csv'],
    ['one argument too many', ['plateaus', 'a.csv', 'b.csv'], 2, 'b.csv'],
    ['a file without a usable column', ['plateaus', 'other.csv'], 2, 'time_s'],
    ['no data folder', ['replay'], 2, '--data'],
    ['a name of nothing', ['serve', '--data', ''], 2, '--data'],
    // On Linux /proc exists, and no folder can be made in it; elsewhere this is just such a file.
    ['a data folder that cannot be made', ['serve', '--data', UNMAKEABLE], 2, UNMAKEABLE],
    ['air without its temperature', ['air', '--pressure', '101325', '--humidity', '0.5'], 2, '--temperature is missing: degrees Celsius from -40 to 60'],
    ['air as hot as an oven', ['air', '--temperature', '200', '--pressure', '101325', '--humidity', '0.5'], 2, '--temperature takes degrees Celsius from -40 to 60, not "200"'],
    ['pressure in hPa', ['air', '--temperature', '20', '--pressure', '1013', '--humidity', '0.5'], 2, '--pressure takes pascals (1013 hPa are 101300) from 50000 to 110000'],
    ['a negative pressure', ['air', '--temperature', '20', '--pressure', '-101325', '--humidity', '0.5'], 2, 'not "-101325"'],
    ['humidity in per cent', ['air', '--temperature', '20', '--pressure', '101325', '--humidity', '50'], 2, '--humidity takes a fraction (50 % is 0.5) from 0 to 1'],
    ['pressure and altitude', ['air', '--temperature', '20', '--pressure', '101325', '--altitude', '0'], 2, 'not both'],
    ['an empty data folder', ['replay', '--data', 'nothing-here'], 2, 'nothing-here'],
  ];
  it.each(cases)('%s', async (_what, args, wanted, words) => {
    const placed = args.map((arg) => (/^(other\.csv|nothing-here)$/.test(arg) ? at(arg) : arg));
    const { code, stdout, stderr } = await runCommand(...placed);
    expect(code).toBe(wanted);
    expect(stdout).toBe('');
    expect(stderr).toContain(words);
    expect(stderr.trim().split('\n')).toHaveLength(1);
  });

  it('a data folder in use, and a port in use: the first server is unharmed', async () => {
    const data = at('in-use');
    const first = await startServer('--data', data, '--source', 'simulated', '--speed', '20');
    try {
      const { port } = new URL(first.url);
      const sameFolder = await runCommand('serve', '--port', '0', '--data', data);
      expect(sameFolder.code).toBe(3);
      expect(sameFolder.stderr).toContain(data);
      const samePort = await runCommand('serve', '--port', port, '--data', at('another'), '--source', 'simulated');
      expect(samePort.code).toBe(3);
      expect(samePort.stderr).toContain(`Port ${port}`);
      const before = (await first.trials()).length;
      await until(first.trials, ({ length }) => length > before, 20);
    } finally {
      expect(await first.stop()).toBe(0);
    }
  });
});

describe('the rest of the command line', () => {
  it('helps, tells its version and lists boards', async () => {
    const help = await runCommand('help');
    expect(help.code).toBe(0);
    for (const command of ['serve', 'boards', 'plateaus', 'replay']) expect(help.stdout).toContain(command);
    expect((await runCommand('--version')).stdout).toMatch(/^\d+\.\d+\.\d+\n$/);
    const boards = await runCommand('boards', '--json');
    expect(boards.code).toBe(0);
    expect(Array.isArray((JSON.parse(boards.stdout) as { boards: unknown }).boards)).toBe(true);
  });

  it('resumes the session after a restart, trials go on counting, and what was said of the rotor holds', async () => {
    const data = at('resumed');
    const options = ['--data', data, '--source', 'simulated:3', '--speed', '60'];
    const first = await startServer(...options);
    const [unsaid] = await until(first.trials, ({ length }) => length >= 2, 30);
    expect(unsaid?.powerCoefficient).toBeNull();
    const answer = await fetch(new URL('/api/experiment', first.url), {
      method: 'POST',
      headers: { 'content-type': 'application/json', connection: 'close' },
      body: JSON.stringify({ say: 'rotor-and-air', described: { ...ROTOR_AND_AIR, radius_m: 0.19 } }),
    });
    expect(answer.status).toBe(200);
    const [said] = await first.trials();
    // Of that rotor in some 4 m/s of wind, milliwatts are some per cent; all of it is impossible.
    expect(said?.powerCoefficient?.value).toBeGreaterThan(0);
    expect(said?.powerCoefficient?.value).toBeLessThan(16 / 27);
    await first.stop();
    const second = await startServer(...options);
    const kept = await second.trials();
    expect(kept[0]?.powerCoefficient).toEqual(said?.powerCoefficient);
    expect(kept.map(({ id }) => id)).toEqual(kept.map((_trial, index) => index + 1));
    expect(kept.every(({ simulated, origin }) => simulated && origin === 'simulated')).toBe(true);
    const more = await until(second.trials, ({ length }) => length > kept.length, 30);
    expect(more.at(-1)?.id).toBe(more.length);
    await second.stop();
    expect((await runCommand('replay', '--data', data)).code).toBe(0);

    // A recording whose input is damaged is left out, named, and the others are still derived.
    const database = openDatabase(dataFiles(data).database);
    database.exec('DELETE FROM input_chunk WHERE recordingId = 1 AND number = 1');
    database.close();
    const { code, stdout, stderr } = await runCommand('replay', '--data', data, '--json');
    expect(code).toBe(2);
    expect(stderr).toContain('recording 1 ');
    expect(JSON.parse(stdout)).toMatchObject({
      sessions: [{ recordings: 2, damaged: [{ recording: 1 }], differences: [] }],
    });
  });
});
