/**
 * A board without hardware: a pseudo-terminal made by socat, which `serialport` opens as it opens a
 * real port. It ignores line speed and has no DTR.
 */
import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';

export interface PtyBoard {
  /** Stays the same over unplugging and return. */
  readonly path: string;
  /** Sends bytes as they are; resolves once they are on their way. */
  send(text: string | Uint8Array): Promise<void>;
  /** All that was ever written to it. */
  received(): string;
  /** The cable is pulled. */
  unplug(): Promise<void>;
  plugIn(): Promise<void>;
  /** Unplugs and tidies up. */
  discard(): Promise<void>;
}

export async function createPtyBoard(): Promise<PtyBoard> {
  const folder = mkdtempSync(join(tmpdir(), 'pty-'));
  const path = join(folder, 'board');
  let received = '';
  const plug = async (): Promise<ChildProcess> => {
    const child = await connect(path);
    child.stdout?.setEncoding('latin1').on('data', (text: string) => (received += text));
    return child;
  };
  let cable: ChildProcess | null = await plug();
  const board: PtyBoard = {
    path,
    received: () => received,
    async send(text) {
      if (cable === null) throw new Error('the test sends over a cable that is pulled');
      const { stdin } = cable;
      await new Promise<void>((resolve, reject) => {
        stdin?.write(text, (error) => (error ? reject(error) : resolve()));
      });
    },
    async unplug() {
      if (cable !== null) await disconnect(cable);
      cable = null;
    },
    async plugIn() {
      cable ??= await plug();
    },
    async discard() {
      await board.unplug();
      rmSync(folder, { recursive: true, force: true });
    },
  };
  return board;
}

/** socat keeps its own terminal open, so it outlives those who open and close it. */
async function connect(path: string): Promise<ChildProcess> {
  const child = spawn('socat', [`PTY,raw,echo=0,link=${path}`, 'STDIO'], { stdio: ['pipe', 'pipe', 'inherit'] });
  while (!existsSync(path)) {
    if (child.exitCode !== null) throw new Error(`socat ended with code ${child.exitCode}`);
    await wait(5);
  }
  return child;
}

async function disconnect(child: ChildProcess): Promise<void> {
  const ended = child.exitCode === null ? once(child, 'exit') : Promise.resolve();
  child.kill();
  await ended;
}
