import type { RawData, WebSocket } from 'ws';
import { PageMessageSchema } from '#core/live-messages.ts';
import type { PageMessage } from '#core/live-messages.ts';
import { TokenBucket } from '#core/token-bucket.ts';
import { CLOSINGS } from './errors.ts';
import type { Closing } from './errors.ts';
import type { FeedLimits } from './limits.ts';

/** One page that watches, and what it has been sent. It never holds up anyone else. */
export class Viewer {
  /** It gets nothing but a snapshot until it has that; the snapshot holds what it missed. */
  awaitsSnapshot = true;
  /** Stream time of the newest sample it was sent. */
  sent_s = -Infinity;

  readonly #socket: WebSocket;
  readonly #limits: FeedLimits;
  readonly #inbound: TokenBucket;
  readonly #lastSent = new Map<string, Buffer>();
  #allowance_bytes: number;
  #heardAt_ms: number;
  #lastBacklog_bytes = 0;

  constructor(socket: WebSocket, limits: FeedLimits, onAsked: (message: PageMessage) => void) {
    this.#socket = socket;
    this.#limits = limits;
    this.#inbound = new TokenBucket(limits.inbound, performance.now() / 1000);
    this.#allowance_bytes = limits.backlog_bytes;
    this.#heardAt_ms = performance.now();
    socket.on('message', (data, isBinary) => this.#receive(data, isBinary, onAsked));
    socket.on('ping', () => this.#count());
    socket.on('pong', () => this.#hear());
    // Broken frames and connections: the library closes by itself and `close` follows.
    socket.on('error', () => {});
  }

  /** Slow or asleep: it is not to be sent what a newer message will replace anyway. */
  get isBehind(): boolean {
    return this.#socket.bufferedAmount > this.#limits.behind_bytes;
  }

  /** Sends what must not be lost; beyond the bound the viewer is closed and may come back. */
  send(frame: Buffer): void {
    if (this.#socket.readyState !== this.#socket.OPEN) return;
    this.#socket.send(frame, { binary: false });
    if (this.#socket.bufferedAmount > this.#allowance_bytes) this.close(CLOSINGS.slow);
  }

  sendSnapshot(frame: Buffer, newest_s: number): void {
    this.awaitsSnapshot = false;
    this.sent_s = newest_s;
    this.#allowance_bytes = this.#limits.backlog_bytes + frame.byteLength;
    this.send(frame);
  }

  /** Sends the newest message of a kind unless it has been sent. */
  sendLatest(kind: string, frame: Buffer | null): void {
    if (frame === null || this.#lastSent.get(kind) === frame) return;
    this.#lastSent.set(kind, frame);
    this.send(frame);
  }

  /** Once a beat: asks for a sign of life and closes a viewer that has given none for too long. */
  beat(now_ms: number): void {
    const backlog_bytes = this.#socket.bufferedAmount;
    if (backlog_bytes < this.#lastBacklog_bytes) this.#hear();
    this.#lastBacklog_bytes = backlog_bytes;
    if (now_ms - this.#heardAt_ms > this.#limits.silence_ms) this.close(CLOSINGS.slow);
    else if (this.#socket.readyState === this.#socket.OPEN) this.#socket.ping();
  }

  /** Says why and cuts the connection if the other side does not answer. */
  close({ code, status, sentence }: Closing): void {
    if (this.#socket.readyState !== this.#socket.OPEN) return;
    this.#socket.close(status, `${code}: ${sentence}`);
    setTimeout(() => this.#socket.terminate(), this.#limits.farewell_ms).unref();
  }

  #receive(data: RawData, isBinary: boolean, onAsked: (message: PageMessage) => void): void {
    this.#hear();
    if (!this.#count()) return;
    const message = isBinary ? null : parsePageMessage(String(data));
    if (message) onAsked(message);
    else this.close(CLOSINGS.refused);
  }

  #count(): boolean {
    const allowed = this.#inbound.take(performance.now() / 1000);
    if (!allowed) this.close(CLOSINGS.flood);
    return allowed;
  }

  #hear(): void {
    this.#heardAt_ms = performance.now();
  }
}

function parsePageMessage(text: string): PageMessage | null {
  try {
    return PageMessageSchema.parse(JSON.parse(text));
  } catch {
    return null;
  }
}
