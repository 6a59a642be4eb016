/**
 * The live feed: what the program says, to every page that watches.
 *
 * Samples, judgements and the status are overtaken by newer ones: they are gathered and sent at
 * most every 16 ms, serialised once for all viewers, and a viewer that can't keep up is sent the
 * newest when it can take it again. What was declared, closed and logged is sent at once and never
 * left out. A viewer that falls too far behind is closed; its page comes back for a snapshot.
 */
import type { IncomingMessage, Server } from 'node:http';
import type { Duplex } from 'node:stream';
import { WebSocketServer } from 'ws';
import type { WebSocket } from 'ws';
import type { LiveMessage, Status } from '#core/live-messages.ts';
import type { Judgement } from '#core/signal/plateau.ts';
import type { Sample } from '#core/signal/sample.ts';
import { CLOSINGS } from './errors.ts';
import { FEED_LIMITS, INBOUND } from './limits.ts';
import type { FeedLimits } from './limits.ts';
import { Recent, SNAPSHOT_STRETCH_S } from './recent.ts';
import { thin, toColumns } from './thin.ts';
import { Viewer } from './viewer.ts';

type Message<Type extends LiveMessage['type']> = Extract<LiveMessage, { type: Type }>;

/** What a snapshot holds besides the samples and the judgement, which the feed itself remembers. */
export type Picture = Omit<Message<'snapshot'>, 'type' | 'samples' | 'judgement'>;
/** What is never left out. */
export type Said =
  | Message<'declared'>
  | Message<'closed'>
  | Message<'trial'>
  | Message<'experiment'>;

export interface FeedOptions {
  /**
   * The state of things now. It must hold whatever has been said, before it is said: a page that
   * connects in between learns of it from here alone.
   */
  readonly picture: () => Picture;
  /** Whether a handshake may go on; answers it when not. */
  readonly admit: (request: IncomingMessage, socket: Duplex) => boolean;
  readonly limits?: Partial<FeedLimits>;
}

export interface Feed {
  /**
   * Takes WebSocket handshakes from this server.
   * @param ownSeats viewers that come in here have so many seats beyond those for all
   */
  attach(server: Server, ownSeats?: number): void;
  sample(sample: Sample): void;
  judgement(judgement: Judgement): void;
  status(status: Status): void;
  say(message: Said): void;
  /** Stream time begins anew (another recording): forgets the samples, sends everyone a snapshot. */
  restart(): void;
  readonly viewerCount: number;
  /** Says goodbye to all viewers; resolves when every connection is gone. */
  close(): Promise<void>;
}

export function createFeed(options: FeedOptions): Feed {
  return new LiveFeed(options);
}

/** Samples waiting for the next flush are taken in before they are more than this. */
const MAX_PENDING = 4_096;
/** A viewer that has this many samples to catch up with gets them as coarse as a snapshot's. */
const CATCH_UP_COUNT = 400;

class LiveFeed implements Feed {
  readonly #options: FeedOptions;
  readonly #limits: FeedLimits;
  readonly #sockets = new WebSocketServer({ noServer: true, ...INBOUND });
  readonly #viewers = new Set<Viewer>();
  readonly #beat: NodeJS.Timeout;
  readonly #recent = new Recent();
  #pending: Sample[] = [];
  #judgement: Judgement | null = null;
  #judgementFrame: Buffer | null = null;
  #statusFrame: Buffer | null = null;
  #statusIsFresh = false;
  #isScheduled = false;
  #isClosed = false;
  #flushedAt_ms = -Infinity;
  #snapshotAt_ms = -Infinity;

  constructor(options: FeedOptions) {
    this.#options = options;
    this.#limits = { ...FEED_LIMITS, ...options.limits };
    this.#beat = setInterval(() => this.#onBeat(), this.#limits.beat_ms);
    this.#beat.unref();
  }

  get viewerCount(): number {
    return this.#sockets.clients.size;
  }

  attach(server: Server, ownSeats = 0): void {
    server.on('upgrade', (request: IncomingMessage, socket: Duplex, head: Buffer) => {
      if (this.#isClosed) socket.destroy();
      if (this.#isClosed || !this.#options.admit(request, socket)) return;
      this.#sockets.handleUpgrade(request, socket, head, (webSocket) =>
        this.#join(webSocket, this.#limits.viewers + ownSeats),
      );
    });
  }

  sample(sample: Sample): void {
    this.#pending.push(sample);
    if (this.#pending.length >= MAX_PENDING) this.#takeIn();
    this.#schedule();
  }

  judgement(judgement: Judgement): void {
    this.#judgement = judgement;
    this.#judgementFrame = toFrame({ type: 'judgement', judgement });
    this.#schedule();
  }

  status(status: Status): void {
    this.#statusFrame = toFrame({ type: 'status', status });
    this.#statusIsFresh = true;
    this.#schedule();
  }

  say(message: Said): void {
    const frame = toFrame(message);
    for (const viewer of this.#viewers) {
      if (!viewer.awaitsSnapshot) viewer.send(frame);
    }
  }

  restart(): void {
    this.#recent.clear();
    this.#pending = [];
    this.#judgement = null;
    this.#judgementFrame = null;
    for (const viewer of this.#viewers) viewer.awaitsSnapshot = true;
    this.#schedule();
  }

  async close(): Promise<void> {
    this.#isClosed = true;
    clearInterval(this.#beat);
    const gone = [...this.#sockets.clients].map(
      (socket) => new Promise<void>((resolve) => socket.once('close', () => resolve())),
    );
    for (const viewer of this.#viewers) viewer.close(CLOSINGS.stopping);
    await Promise.all(gone);
  }

  #join(webSocket: WebSocket, seats: number): void {
    const viewer = new Viewer(webSocket, this.#limits, () => {
      viewer.awaitsSnapshot = true;
      this.#schedule();
    });
    if (this.#viewers.size >= seats) {
      viewer.close(CLOSINGS.full);
      return;
    }
    this.#viewers.add(viewer);
    webSocket.once('close', () => this.#viewers.delete(viewer));
    this.#schedule();
  }

  /** Plans a flush: at once after a pause, else when the last one is long enough ago. */
  #schedule(): void {
    if (this.#isScheduled) return;
    this.#isScheduled = true;
    const spacing_ms = Math.max(
      this.#limits.flush_ms,
      this.#limits.flushPerViewer_ms * this.#viewers.size,
    );
    const wait_ms = this.#flushedAt_ms + spacing_ms - performance.now();
    // Not within this call: the rest of a chunk of lines should share the frame.
    if (wait_ms <= 0) setImmediate(() => this.#flush());
    else setTimeout(() => this.#flush(), wait_ms).unref();
  }

  #flush(): void {
    this.#isScheduled = false;
    this.#flushedAt_ms = performance.now();
    this.#takeIn();
    const samplesSince = remember((sent_s: number) => this.#samplesFrame(sent_s));
    for (const viewer of this.#viewers) {
      if (viewer.isBehind || viewer.awaitsSnapshot) continue;
      const frame = samplesSince(viewer.sent_s);
      if (frame) viewer.send(frame);
      viewer.sent_s = this.#recent.newest_s;
      viewer.sendLatest('judgement', this.#judgementFrame);
      viewer.sendLatest('status', this.#statusFrame);
    }
    this.#sendSnapshots();
  }

  #sendSnapshots(): void {
    const viewers = [...this.#viewers];
    const waiting = viewers.filter((viewer) => viewer.awaitsSnapshot && !viewer.isBehind);
    if (waiting.length === 0) return;
    if (this.#flushedAt_ms - this.#snapshotAt_ms < this.#limits.snapshot_ms) {
      this.#schedule();
      return;
    }
    this.#snapshotAt_ms = this.#flushedAt_ms;
    const frame = this.#snapshotFrame();
    for (const viewer of waiting) viewer.sendSnapshot(frame, this.#recent.newest_s);
  }

  #takeIn(): void {
    this.#recent.push(this.#pending);
    this.#pending = [];
  }

  #samplesFrame(sent_s: number): Buffer | null {
    const samples = this.#recent.since(sent_s);
    if (samples.length === 0) return null;
    const shown = samples.length > CATCH_UP_COUNT ? thin(samples, SNAPSHOT_STRETCH_S) : samples;
    return toFrame({ type: 'samples', samples: toColumns(shown) });
  }

  #snapshotFrame(): Buffer {
    return toFrame({
      type: 'snapshot',
      ...this.#options.picture(),
      samples: toColumns(thin(this.#recent.since(-Infinity), SNAPSHOT_STRETCH_S)),
      judgement: this.#judgement,
    });
  }

  /** A page hears something at least once a beat, so that silence means a broken connection. */
  #onBeat(): void {
    if (this.#viewers.size > 0 && !this.#statusIsFresh) this.status(this.#options.picture().status);
    this.#statusIsFresh = false;
    const now_ms = performance.now();
    for (const viewer of this.#viewers) viewer.beat(now_ms);
    this.#schedule();
  }
}

function toFrame(message: LiveMessage): Buffer {
  return Buffer.from(JSON.stringify(message));
}

/** A function of one argument that works each answer out once. */
function remember<Key, Value>(answer: (key: Key) => Value): (key: Key) => Value {
  const known = new Map<Key, Value>();
  return (key) => {
    const value = known.has(key) ? (known.get(key) as Value) : answer(key);
    known.set(key, value);
    return value;
  };
}
