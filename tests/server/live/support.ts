/** A real server with the feed attached, and pages that watch it over real sockets. */
import { connect } from 'node:net';
import type { Socket } from 'node:net';
import { WebSocket } from 'ws';
import { LiveMessageSchema } from '#core/live-messages.ts';
import type { LiveMessage } from '#core/live-messages.ts';
import { NO_EXPERIMENT } from '#core/experiment/view.ts';
import type { Judgement } from '#core/signal/plateau.ts';
import type { Sample } from '#core/signal/sample.ts';
import { createFeed } from '../../../server/live/feed.ts';
import type { Feed, Picture } from '../../../server/live/feed.ts';
import type { FeedLimits } from '../../../server/live/limits.ts';
import { admitLive } from '../../../server/routes/raw-refusals.ts';
import { PLATEAU, STATUS, startServer, trialView } from '../http/support.ts';
import type { TestServer } from '../http/support.ts';

export interface LiveServer {
  readonly feed: Feed;
  readonly server: TestServer;
  /** What snapshots show; a test may change it. */
  picture: Picture;
  close(): Promise<void>;
}

export async function startLive(limits: Partial<FeedLimits> = {}): Promise<LiveServer> {
  const server = await startServer();
  const live: LiveServer = {
    server,
    picture: { status: STATUS, trials: [trialView(1)], plateaus: [PLATEAU], openSince_s: null, experiment: NO_EXPERIMENT },
    feed: createFeed({ picture: () => live.picture, admit: admitLive, limits }),
    close: async () => {
      await live.feed.close();
      await server.close();
    },
  };
  live.feed.attach(server.http.server);
  return live;
}

type Of<Type extends LiveMessage['type']> = Extract<LiveMessage, { type: Type }>;

/** A page that watches: every message must fit the schema, and is kept. */
export class Page {
  readonly messages: LiveMessage[] = [];
  readonly closed: Promise<{ code: number; reason: string }>;
  readonly socket: WebSocket;
  #wake: () => void = () => {};
  #news = new Promise<void>((resolve) => (this.#wake = resolve));

  constructor(port: number) {
    this.socket = new WebSocket(`ws://127.0.0.1:${port}/live`, { origin: `http://127.0.0.1:${port}` });
    this.socket.on('message', (data) => {
      this.messages.push(LiveMessageSchema.parse(JSON.parse(String(data))));
      this.#tell();
    });
    this.socket.on('error', () => {});
    this.closed = new Promise((resolve) => {
      this.socket.on('close', (code, reason) => {
        resolve({ code, reason: String(reason) });
        this.#tell();
      });
    });
  }

  /** Wakes all who wait for news, and begins the next wait. */
  #tell(): void {
    this.#wake();
    this.#news = new Promise<void>((resolve) => (this.#wake = resolve));
  }

  of<Type extends LiveMessage['type']>(type: Type): Of<Type>[] {
    return this.messages.filter((message): message is Of<Type> => message.type === type);
  }

  /** Resolves with the first message of a kind that is or comes in and satisfies the condition. */
  async next<Type extends LiveMessage['type']>(
    type: Type,
    condition: (message: Of<Type>) => boolean = () => true,
  ): Promise<Of<Type>> {
    for (;;) {
      const found = this.of(type).find(condition);
      if (found) return found;
      if (this.socket.readyState >= WebSocket.CLOSING) throw new Error(`closed without ${type}`);
      await this.#news;
    }
  }

  /** Stream times of all samples that came in `samples` messages. */
  times(): number[] {
    return this.of('samples').flatMap((message) => message.samples.time_s);
  }
}

/** A page that has its snapshot. */
export async function openPage(port: number): Promise<Page> {
  const page = new Page(port);
  await page.next('snapshot');
  return page;
}

/** The client's side of RFC 6455 on a bare socket that reads nothing after the handshake. */
export function openSleeper(port: number): Promise<Socket> {
  return new Promise((resolve, reject) => {
    const socket = connect(port, '127.0.0.1', () => {
      socket.write(
        `GET /live HTTP/1.1\r\nhost: 127.0.0.1:${port}\r\nconnection: Upgrade\r\nupgrade: websocket\r\n` +
          // The nonce of the example in RFC 6455, 1.3.
          'sec-websocket-version: 13\r\nsec-websocket-key: dGhlIHNhbXBsZSBub25jZQ==\r\n\r\n',
      );
    });
    socket.once('readable', () => resolve(socket));
    socket.on('error', reject);
    socket.once('readable', () => socket.off('error', reject).on('error', () => {}));
  });
}

/** A client's frame: masked, up to 65 535 bytes of payload (RFC 6455, 5.2). */
export function frame(opcode: number, payload: Buffer, isFinal = true): Buffer {
  const mask = Buffer.from([0x37, 0xfa, 0x21, 0x3d]);
  const masked = payload.map((byte, index) => byte ^ (mask[index % 4] ?? 0));
  const short = payload.length < 126;
  const head = Buffer.alloc(short ? 2 : 4);
  head[0] = (isFinal ? 0x80 : 0) | opcode;
  head[1] = 0x80 | (short ? payload.length : 126);
  if (!short) head.writeUInt16BE(payload.length, 2);
  return Buffer.concat([head, mask, masked]);
}

export function sampleAt(time_s: number, voltage_V: number | null = 1): Sample {
  return { time_s, voltage_V, current_A: 0.1, windSpeed_mps: 4, rotorSpeed_radps: null };
}

export function judgementAt(time_s: number): Judgement {
  return {
    time_s,
    phase: 'settling',
    channels: [{ channel: 'voltage_V', motion: 'still', level: 1, slope_per_s: 0 }],
    threads: [{ power_W: 0.1, joined: true }],
    power_W: { mean: 0.1, standardUncertainty: 0.001, degreesOfFreedom: 12, effectiveSampleSize: 13 },
    remaining_s: 2,
    rotorStill: false,
    windBlows: true,
    cause: null,
  };
}

/** Lets everything that is due now happen: `turns` rounds through the event loop. */
export async function turns(count: number): Promise<void> {
  for (let i = 0; i < count; i++) await new Promise((resolve) => setImmediate(resolve));
}

export function pause(duration_ms: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, duration_ms));
}
