/** A board that announces itself badly, over a pseudo-terminal: the program says what to change. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Status } from '#core/live-messages.ts';
import type { ChannelFrame, Frame } from '#protocol/frame.ts';
import { formatFrame } from '#protocol/stillmark-line.ts';
import { channelOf, CURRENT, VOLTAGE } from '../support/answering-board.ts';
import { needsSocat } from '../support/needs.ts';
import { createPtyBoard, type PtyBoard } from '../support/pty-board.ts';
import { startServer, until, type ServerProcess } from '../support/server-process.ts';

let pty: PtyBoard;
let dataFolder: string;
let server: ServerProcess;

const send = (...frames: Frame[]): Promise<void> =>
  pty.send(frames.map((frame) => `${formatFrame(frame)}\r\n`).join(''));
const announce = (...channels: ChannelFrame[]): Promise<void> =>
  send(
    { kind: 'opening', cause: 'boot', timeUnit: 'us', channelCount: channels.length },
    { kind: 'identity', maker: 'Own workshop', model: 'bad board', serial: '0', firmware: '1' },
    ...channels,
    { kind: 'pace', period_us: 10_000, shortest_us: 10_000, longest_us: 10_000 },
  );
let sequence = 0;
const sample = (...counts: number[]): Promise<void> => {
  sequence += 1;
  return send({ kind: 'sample', sequence, time: sequence * 10_000, counts });
};
const noticed = (code: string): Promise<Status> =>
  until(server.status, ({ notices }) => notices.some((one) => one.code === code), 20);

needsSocat().describe('a board that announces itself badly', () => {
  beforeAll(async () => {
    pty = await createPtyBoard();
    dataFolder = mkdtempSync(join(tmpdir(), 'stillmark-bad-'));
    server = await startServer('--data', dataFolder, '--source', `serial:${pty.path}`);
    await until(server.status, ({ port }) => port.phase === 'open', 10);
  });
  afterAll(async () => {
    await server.kill();
    await pty.discard();
    rmSync(dataFolder, { recursive: true, force: true });
  });

  it('not at all: is told so after 12 s, and nothing is written to it', async () => {
    for (let i = 0; i < 130; i += 1) {
      await sample(1, 2);
      await wait(100);
    }
    const { health, board } = await noticed('no-announcement');
    expect([health, board?.channels]).toEqual(['unmapped', []]);
    expect(pty.received()).toBe('');
  });

  it.each<[string, ChannelFrame, string]>([
    ['channel-unknown', channelOf(1, 'brightness', 'lux', 1), 'use one of: voltage, current'],
    ['channel-unit', channelOf(1, 'voltage', 'kV', 1), 'Use V or mV in the sketch'],
    ['channel-scale', channelOf(1, 'voltage', 'mV', 0), 'a scale or gain of 0'],
    ['channel-scale', channelOf(1, 'wind', 'mps', -0.01), 'less than nothing'],
    ['channel-scale', channelOf(1, 'voltage', 'V', 19.55), 'more than any rig has'],
  ])('with a channel that makes no sense (%s): reads the others', async (code, bad, words) => {
    await announce(bad, CURRENT);
    const found = await until(
      server.status,
      ({ notices }) => notices.some((one) => one.code === code && one.message.includes(words)),
      10,
    );
    expect(found.board?.channels.map(({ isRead }) => isRead)).toEqual([false, true]);
    await sample(1, 2);
    await until(server.status, ({ health }) => health === 'reading', 5);
  });

  it('with two channels that make no sense: both are told', async () => {
    await announce(channelOf(1, 'voltage', 'A', 1), channelOf(2, 'current', 'V', 1));
    await until(
      server.status,
      ({ notices }) => notices.filter(({ message }) => /\) in [AV], which/.test(message)).length === 2,
      10,
    );
  });

  it('with fewer channels than its samples have', async () => {
    await announce(VOLTAGE, CURRENT);
    await sample(1, 2, 3);
    const { notices } = await noticed('samples-misfit');
    expect(notices.at(-1)?.message).toContain('3 readings, but it has announced 2 channels');
  });

  it('in a version that is not known: is told so, and no longer spoken to', async () => {
    const before = pty.received();
    await send({ kind: 'foreign', version: 7 });
    const { board } = await noticed('board-version');
    expect(board).toBeNull();
    await wait(3000);
    expect(pty.received()).toBe(before);
  });
});
