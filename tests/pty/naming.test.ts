/** A board that sends numbers without a header: the operator names them once, and that is kept. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import type { BoardRequest } from '#core/live-messages.ts';
import { needsSocat } from '../support/needs.ts';
import { createPtyBoard, type PtyBoard } from '../support/pty-board.ts';
import { runCommand, startServer, until, type ServerProcess } from '../support/server-process.ts';

let pty: PtyBoard;
let dataFolder: string;
let server: ServerProcess;
let sending: NodeJS.Timeout;

const start = (): Promise<ServerProcess> =>
  startServer('--data', dataFolder, '--source', `serial:${pty.path}`);

async function want(request: BoardRequest): Promise<number> {
  const response = await fetch(new URL('/api/board', server.url), {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(request),
  });
  return response.status;
}

needsSocat().describe('numbers without a header', () => {
  beforeEach(async () => {
    pty = await createPtyBoard();
    dataFolder = mkdtempSync(join(tmpdir(), 'stillmark-naming-'));
    let time_ms = 48_000;
    sending = setInterval(() => void pty.send(`${(time_ms += 50)};2.314;105.2;17\r\n`), 50);
    server = await start();
  });
  afterEach(async () => {
    clearInterval(sending);
    await server.kill();
    await pty.discard();
    rmSync(dataFolder, { recursive: true, force: true });
  });

  it('are named by the operator, and known after a restart', async () => {
    const { unnamedFields } = await until(server.status, ({ health }) => health === 'unmapped', 20);
    expect(unnamedFields?.slice(1)).toEqual(['2.314', '105.2', '17']);
    expect(await want({ want: 'columns', columns: ['time_ms', '', '', ''] })).toBe(409);
    const columns = ['time_ms', 'voltage_V', 'current_mA', ''] as const;
    expect(await want({ want: 'columns', columns: [...columns] })).toBe(204);
    const read = await until(server.status, ({ health }) => health === 'reading', 20);
    expect(read).toMatchObject({ unnamedFields: null, namedColumns: columns, notices: [] });

    expect(await server.stop()).toBe(0);
    server = await start();
    const again = await until(server.status, ({ health }) => health === 'reading', 20);
    expect(again.namedColumns).toEqual(columns);

    expect(await want({ want: 'columns', columns: [] })).toBe(204);
    await until(server.status, ({ health }) => health === 'unmapped', 20);
    expect(await server.stop()).toBe(0);
    expect((await runCommand('replay', '--data', dataFolder)).code).toBe(0);
  });
});
