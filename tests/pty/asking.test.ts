/** What the program writes to a board, and what it makes of the answers: over a pseudo-terminal. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { afterEach, beforeEach, expect, it } from 'vitest';
import type { BoardRequest, Status } from '#core/live-messages.ts';
import { formatFrame } from '#protocol/stillmark-line.ts';
import {
  CURRENT,
  playAnsweringBoard,
  VOLTAGE,
  type AnsweringBoard,
} from '../support/answering-board.ts';
import { needsSocat } from '../support/needs.ts';
import { createPtyBoard, type PtyBoard } from '../support/pty-board.ts';
import { runCommand, startServer, until, type ServerProcess } from '../support/server-process.ts';

let pty: PtyBoard;
let dataFolder: string;
let server: ServerProcess;
let board: AnsweringBoard | null;

async function want(request: BoardRequest): Promise<{ status: number; code: string | null }> {
  const response = await fetch(new URL('/api/board', server.url), {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(request),
  });
  const text = await response.text();
  const body = (text === '' ? {} : JSON.parse(text)) as { error?: { code: string } };
  return { status: response.status, code: body.error?.code ?? null };
}

const untilStatus = (wanted: (status: Status) => boolean): Promise<Status> =>
  until(server.status, wanted, 20);

/** Lines twice a second for a while, in which a program that writes would have written. */
async function sayFor(seconds: number, line: () => string): Promise<void> {
  for (let i = 0; i < 2 * seconds; i += 1) {
    await pty.send(`${line()}\r\n`);
    await wait(500);
  }
}

needsSocat().describe('writing to a board', () => {
  beforeEach(async () => {
    pty = await createPtyBoard();
    board = null;
    dataFolder = mkdtempSync(join(tmpdir(), 'stillmark-asking-'));
    server = await startServer('--data', dataFolder, '--source', `serial:${pty.path}`);
    await untilStatus(({ port }) => port.phase === 'open');
  });
  afterEach(async () => {
    board?.stop();
    await server.kill();
    await pty.discard();
    rmSync(dataFolder, { recursive: true, force: true });
  });

  it('never happens to a board that sends plain lines', async () => {
    let time_ms = 0;
    await pty.send('time_ms,voltage_V,current_mA\r\n');
    await sayFor(8, () => `${(time_ms += 500)},1.5,96.1`);
    expect((await server.status()).health).toBe('reading');
    expect(await want({ want: 'zero', channel: 1, sure: true })).toEqual({
      status: 409,
      code: 'zero-refused',
    });
    await want({ want: 'rate', sampleRate_Hz: 20 });
    await sayFor(2, () => `${(time_ms += 500)},1.5,96.1`);
    expect(pty.received()).toBe('');
    expect((await server.status()).board).toBeNull();
  });

  it('never happens to a board of another version, which is said', async () => {
    const beat = formatFrame({ kind: 'foreign', version: 2 });
    await sayFor(6, () => beat);
    expect(pty.received()).toBe('');
    expect((await server.status()).notices.map(({ code }) => code)).toEqual(['board-version']);
  });

  it('waits for the announcement, then asks who it is and for the pace', async () => {
    board = playAnsweringBoard(pty);
    await untilStatus(({ board: known }) => known !== null);
    await wait(3000);
    expect(pty.received()).toBe('');
    board.send({ kind: 'beat', time: 1 });
    const { board: known } = await untilStatus(({ board: one }) => one?.pace?.period_us === 10_000);
    expect(board.requests).toEqual([{ kind: 'identify' }, { kind: 'pace', period_us: 10_000 }]);
    expect(board.strange).toEqual([]);
    expect(known).toMatchObject({
      identity: { maker: 'Own workshop', serial: '31', firmware: '1.2' },
      channels: [
        { quantity: 'voltage', unit: 'mV', scale: 5, gain: 1.0025, gainUncertainty: 0.004 },
        { quantity: 'current', unit: 'mA', scale: 0.12, zero: 0, isRead: true, canZero: true },
      ],
    });
    await untilStatus(({ sampleRate_Hz }) => sampleRate_Hz !== null && sampleRate_Hz > 80);
    expect(await want({ want: 'rate', sampleRate_Hz: 1000 })).toEqual({ status: 204, code: null });
    await untilStatus(({ board: one }) => one?.pace?.period_us === 5000);
    expect(board.requests.slice(2)).toEqual([{ kind: 'pace', period_us: 5000 }]);
  });

  it('takes a zero of the current at rest, again and again, and replays the same', async () => {
    board = playAnsweringBoard(pty);
    board.counts = [0, -37];
    board.boot();
    await untilStatus(({ board: one }) => one?.pace?.period_us === 10_000);
    await wait(1500);
    expect(await want({ want: 'zero', channel: 2, sure: false })).toEqual({ status: 204, code: null });
    const zeroed = await untilStatus(({ board: one }) => one?.zeroing?.isPending === false);
    expect(zeroed.board?.channels[1]?.zero).toBe(-37);
    expect(zeroed.board?.zeroing?.message).toBe(
      'Zero of current taken: \u221237 counts, worth \u22124.5 mA (before: 0).',
    );
    board.counts = [0, 5];
    await wait(1500);
    await want({ want: 'zero', channel: 2, sure: false });
    await untilStatus(({ board: one }) => one?.channels[1]?.zero === 5);
    expect(await server.stop()).toBe(0);
    const replayed = await runCommand('replay', '--data', dataFolder);
    expect(replayed.code, replayed.stdout).toBe(0);
  });

  it('does not take a zero while the rig runs, unless told that it is sure', async () => {
    board = playAnsweringBoard(pty, [VOLTAGE, CURRENT]);
    board.counts = [460, 900];
    board.boot();
    await untilStatus(({ board: one }) => one?.pace?.period_us === 10_000);
    await wait(2000);
    const answer = await want({ want: 'zero', channel: 2, sure: false });
    expect(answer).toEqual({ status: 409, code: 'zero-doubtful' });
    expect(board.requests.filter(({ kind }) => kind === 'zero')).toEqual([]);
    board.zeroAnswer = 'range';
    await want({ want: 'zero', channel: 2, sure: true });
    const { board: known } = await untilStatus(({ board: one }) => one?.zeroing?.isPending === false);
    expect(known?.zeroing?.message).toMatch(/^The board took no zero of current: .* Stop the fan/);
    expect(known?.channels[1]?.zero).toBe(0);
  });
});
