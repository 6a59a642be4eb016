/** A host without the server: opens the board's port and keeps every line as the protocol reads it. */
import { SerialPort } from 'serialport';
import type { Fault, Frame, Request } from '#protocol/frame.ts';
import { createLineGuard } from '#protocol/line-guard.ts';
import { formatRequest, parseFrame } from '#protocol/stillmark-line.ts';
import { until } from '../../support/server-process.ts';
import { PATIENCE_S, type EmulatedBoard } from './board.ts';

type FrameOf<K extends Frame['kind']> = Extract<Frame, { kind: K }>;
export type SampleFrame = FrameOf<'sample'>;

export interface Host {
  /** Lines as read, in order, since the board started for this host. */
  readonly frames: readonly (Frame | Fault)[];
  /** Lines that were no text at all. */
  dropped(): number;
  of<K extends (Frame | Fault)['kind']>(kind: K): Extract<Frame | Fault, { kind: K }>[];
  ask(...requests: Request[]): void;
  write(text: string): void;
  /** Resolves once the condition holds for what has come. */
  until(condition: (host: Host) => boolean): Promise<void>;
  close(): Promise<void>;
}

/** Opens the port, which starts the board anew; resolves at the end of its first announcement. */
export async function openHost(board: EmulatedBoard): Promise<Host> {
  const port = new SerialPort({ path: board.path, baudRate: 115200, autoOpen: false });
  const guard = createLineGuard();
  const frames: (Frame | Fault)[] = [];
  let dropped = 0;
  port.on('data', (chunk: Buffer) => {
    const lines = Buffer.from(guard.push(chunk)).toString('latin1').split('\n').slice(0, -1);
    frames.push(...lines.map(parseFrame));
    for (const { count } of guard.takeDropped()) dropped += count;
  });
  await new Promise<void>((resolve, reject) => port.open((error) => (error ? reject(error) : resolve())));
  const host: Host = {
    frames,
    dropped: () => dropped,
    of: (kind) => frames.filter((frame) => frame.kind === kind) as never,
    ask: (...requests) => host.write(requests.map((request) => `${formatRequest(request)}\n`).join('')),
    write: (text) => void port.write(text, 'latin1'),
    until: async (condition) => void (await until(() => Promise.resolve(host), condition, PATIENCE_S)),
    close: () => new Promise((resolve) => port.close(() => resolve())),
  };
  await host.until(() => host.of('pace').length > 0);
  return host;
}

/** Samples that were made but did not arrive, by their sequence numbers. */
export function lostBetween(samples: readonly SampleFrame[]): number {
  return samples.slice(1).reduce((lost, { sequence }, index) => {
    const before = samples[index]?.sequence ?? sequence;
    return lost + ((sequence - before - 1 + 2 ** 16) % 2 ** 16);
  }, 0);
}
