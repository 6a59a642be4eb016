/** The sketch for 32-bit boards as a process of this computer, on a double of Arduino. */
import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import type { Writable } from 'node:stream';
import { createLineGuard } from '#protocol/line-guard.ts';
import type { Fault, Frame } from '#protocol/frame.ts';
import { formatRequest, parseFrame } from '#protocol/stillmark-line.ts';
import { program, type HostVariant } from './programs.ts';

type Request = Parameters<typeof formatRequest>[0];

export class FastBoard {
  /** All that came so far. */
  readonly frames: (Frame | Fault)[] = [];
  readonly #child: ChildProcess;
  readonly #guard = createLineGuard();
  readonly #exit: Promise<unknown>;

  private constructor(path: string) {
    this.#child = spawn(path, [], { stdio: ['pipe', 'pipe', 'inherit', 'pipe'] });
    this.#exit = once(this.#child, 'exit');
    this.#child.stdout?.on('data', (chunk: Buffer) => this.#take(chunk));
  }

  static async start(variant?: HostVariant): Promise<FastBoard> {
    return new FastBoard(await program('fast-board', variant));
  }

  ask(request: Request): void {
    this.#child.stdin?.write(`${formatRequest(request)}\n`);
  }

  /** What arduino-double/double.cpp obeys. */
  control(...lines: readonly string[]): void {
    (this.#child.stdio[3] as Writable).write(lines.map((line) => `${line}\n`).join(''));
  }

  /** Waits until enough has come. @throws after a while */
  async until(what: string, isThere: () => boolean): Promise<void> {
    for (let waits = 0; !isThere(); waits += 1) {
      if (waits > 2000) throw new Error(`the board did not say ${what}`);
      await new Promise((resolve) => setTimeout(resolve, 10));
    }
  }

  of<K extends Frame['kind']>(kind: K): Extract<Frame, { kind: K }>[] {
    return this.frames.filter((frame) => frame.kind === kind) as Extract<Frame, { kind: K }>[];
  }

  /** @throws when it ended by itself: a sanitizer spoke, or a control was wrong */
  async stop(): Promise<void> {
    this.#child.stdin?.end();
    const [code] = (await this.#exit) as [number | null];
    if (code !== 0) throw new Error(`the board ended with code ${code}`);
  }

  #take(chunk: Buffer): void {
    const lines = Buffer.from(this.#guard.push(chunk)).toString('latin1').split('\n').slice(0, -1);
    this.frames.push(...lines.map(parseFrame));
    const dropped = this.#guard.takeDropped();
    if (dropped.length > 0) throw new Error(`no clean lines: ${JSON.stringify(dropped)}`);
  }
}

export async function withBoard(
  body: (board: FastBoard) => Promise<void>,
  variant?: HostVariant,
): Promise<void> {
  const board = await FastBoard.start(variant);
  try {
    await body(board);
    await board.stop();
  } catch (error) {
    await board.stop().catch(() => {});
    throw error;
  }
}
