/**
 * The main job, end to end: a child process plays the board over a pseudo-terminal, the built
 * program reads it through the real serial library, and what it logged is asked over HTTP.
 */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import type { TrialView } from '#core/live-messages.ts';
import { studentTQuantile } from '#core/statistics/student-t.ts';
import { LOAD_OHM, WIND_MPS, type Score } from '../support/board-score.ts';
import { needsSocat } from '../support/needs.ts';
import { createPtyBoard, type PtyBoard } from '../support/pty-board.ts';
import { runCommand, startServer, until, type ServerProcess } from '../support/server-process.ts';

const PLAYER = resolve(import.meta.dirname, '../support/board-player.ts');
/** Bytes that no line grammar can read, high ones included. */
const GARBAGE = '\x00\xffets Jan 8 rst:0x1\r\n12abc,3,4,5\r\nnan\r\n,,,\r\n\x1b[31m\r\n';

let board: PtyBoard;
let dataFolder: string;
let server: ServerProcess;

/** Plays a score to its end over the board's cable. */
async function play(score: Score): Promise<void> {
  const args = ['--import', 'tsx', PLAYER, JSON.stringify(score)];
  const player = spawn(process.execPath, args, { stdio: ['ignore', 'pipe', 'inherit'] });
  for await (const chunk of player.stdout) await board.send(chunk as Uint8Array);
  if (player.exitCode === null) await once(player, 'exit');
}

/** Whether the true value lies within the trial's interval of 99.9 % confidence, or within 1 %. */
function holds(trial: TrialView, voltage_V: number): boolean {
  const power_W = voltage_V ** 2 / LOAD_OHM;
  const { value, standardUncertainty, degreesOfFreedom } = trial.power_W ?? { value: NaN, standardUncertainty: 0, degreesOfFreedom: 1 };
  const u = studentTQuantile(0.9995, degreesOfFreedom) * (standardUncertainty ?? NaN);
  return Math.abs(value - power_W) <= Math.max(u, 0.01 * power_W);
}

needsSocat().describe('the whole job over a serial port', () => {
  beforeEach(async () => {
    board = await createPtyBoard();
    dataFolder = mkdtempSync(join(tmpdir(), 'stillmark-job-'));
    server = await startServer('--data', dataFolder, '--source', `serial:${board.path}`);
  });
  afterEach(async () => {
    await server.kill();
    await board.discard();
    rmSync(dataFolder, { recursive: true, force: true });
  });

  it(
    'logs the plateaus of a board that sends plain lines, through garbage, unplugging and return',
    async () => {
      await play({
        grammar: 'plain',
        rate_Hz: 50,
        seed: 1,
        parts: [
          { do: 'level', voltage_V: 0, length_s: 2 },
          { do: 'level', voltage_V: 2.4, length_s: 8 },
          { do: 'bytes', text: GARBAGE },
          { do: 'level', voltage_V: 2.4, length_s: 4 },
          { do: 'level', voltage_V: 1.6, length_s: 13 },
          { do: 'bytes', text: '99999,1.6' },
        ],
      });
      const logged = await until(server.trials, (trials) => trials.length === 2, 5);
      expect(logged.map(({ state }) => state)).toEqual(['final', 'logged']);

      await board.unplug();
      const unplugged = await until(server.status, ({ port }) => port.phase !== 'open', 5);
      expect(['unplugged', 'refused']).toContain(unplugged.port.phase);
      expect(unplugged.health).toBe('closed');

      await board.plugIn();
      await play({
        grammar: 'plain without header',
        rate_Hz: 50,
        seed: 2,
        parts: [
          { do: 'level', voltage_V: 2, length_s: 13 },
          { do: 'level', voltage_V: 0, length_s: 3 },
        ],
      });
      const trials = await until(server.trials, ({ length }) => length === 3, 5);
      await until(server.trials, (all) => all[2]?.state === 'final', 5);

      expect(trials.map(({ state }) => state).slice(0, 2)).toEqual(['final', 'interrupted']);
      expect(trials.map((trial, index) => holds(trial, [2.4, 1.6, 2][index] ?? 0))).toEqual([true, true, true]);
      expect(trials.every(({ origin, simulated }) => origin === 'board' && !simulated)).toBe(true);
      expect(trials[0]?.windSpeed_mps?.value).toBeCloseTo(WIND_MPS, 1);
      const { faults } = await server.status();
      expect(faults.malformed).toBeGreaterThan(0);
      expect(faults.sequenceGap).toBe(0);

      expect(await server.stop()).toBe(0);
      const replayed = await runCommand('replay', '--data', dataFolder);
      expect(replayed.code, replayed.stdout).toBe(0);
    },
    120_000,
  );

  it(
    'logs the plateaus of a board that sends Stillmark lines, and counts what was lost and spoilt',
    async () => {
      await play({
        grammar: 'stillmark',
        rate_Hz: 100,
        seed: 3,
        parts: [
          { do: 'level', voltage_V: 0, length_s: 2 },
          { do: 'level', voltage_V: 3, length_s: 6 },
          { do: 'lose', count: 3 },
          { do: 'bytes', text: '$1,2,3*00\r\n' },
          { do: 'level', voltage_V: 3, length_s: 6 },
          { do: 'level', voltage_V: 0, length_s: 3 },
        ],
      });
      await until(server.status, ({ health }) => health === 'silent', 10);
      const [trial] = await until(server.trials, ([first]) => first?.state === 'final', 5);
      expect(trial && holds(trial, 3)).toBe(true);
      const { faults, sampleRate_Hz } = await server.status();
      expect(sampleRate_Hz).toBeGreaterThan(95);
      expect(sampleRate_Hz).toBeLessThan(105);
      expect(faults.sequenceGap).toBe(1);
      expect(faults.checksum + faults.malformed).toBe(1);
    },
    120_000,
  );
});
