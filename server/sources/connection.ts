import type { Request } from '#protocol/frame.ts';
import { formatRequest } from '#protocol/stillmark-line.ts';
import type { Input } from '#core/inputs.ts';
import type { Board, Link } from '#core/link.ts';
import { STARTING_GRACE_S } from '#core/pipeline/health.ts';
import { createLineReader, type LineReader } from './lines.ts';
import type { OpenPort, Ports } from './ports.ts';
import type { RecordingClock } from './source.ts';
import { createSpeedWatch } from './speed.ts';

const SPEED_LOOK_EVERY_S = 2;
const DTR_PULSE_S = 0.1;

export interface ConnectionOptions {
  readonly ports: Ports;
  readonly board: Board;
  readonly speed_Bd: number;
  readonly clock: RecordingClock;
  readonly tell: (input: Input) => void;
  /** The line speed was changed, because what came was not text. */
  readonly onSpeed: (speed_Bd: number) => void;
  /** The port says of itself that it has gone; `closed` has been told. */
  readonly onLost: () => void;
}

/** One open port from `opened` to `closed`, with a line reader of its own. */
export interface Connection {
  isLost(): boolean;
  /** When the last byte came; null while none has. */
  lastByteAt_s(): number | null;
  /** Sends a request; nothing else is ever written to the board. */
  ask(request: Request): void;
  /** Tells `closed` (unless that was told) and gives the handle back. */
  close(reason: ClosedReason): Promise<void>;
}

type ClosedReason = Extract<Input, { kind: 'closed' }>['reason'];

/** Opens; rejects with a `PortRefusal`. */
export async function connect(options: ConnectionOptions): Promise<Connection> {
  const port = await options.ports.open(options.board.path, options.speed_Bd);
  return new PortConnection(port, options);
}

class PortConnection implements Connection {
  readonly #port: OpenPort;
  readonly #options: ConnectionOptions;
  readonly #timers: NodeJS.Timeout[];
  #lines: LineReader;
  #lastByteAt_s: number | null = null;
  #ended = false;

  constructor(port: OpenPort, options: ConnectionOptions) {
    this.#port = port;
    this.#options = options;
    this.#lines = this.#openLink();
    const speed = createSpeedWatch(options.speed_Bd);
    port.listen({
      bytes: (chunk) => {
        if (this.#ended) return;
        this.#lastByteAt_s = options.clock();
        speed.count(chunk);
        this.#lines.push(chunk, this.#lastByteAt_s);
      },
      lost: () => {
        if (this.#ended) return;
        this.#end('unplugged');
        options.onLost();
      },
    });
    this.#timers = [
      setTimeout(() => void this.#wakeUp(), STARTING_GRACE_S * 1000),
      setInterval(() => void this.#trySpeed(speed.look()), SPEED_LOOK_EVERY_S * 1000),
    ];
  }

  isLost(): boolean {
    return this.#ended;
  }

  lastByteAt_s(): number | null {
    return this.#lastByteAt_s;
  }

  /** The empty line before it ends what anybody else has left unfinished in the board's ear. */
  ask(request: Request): void {
    if (!this.#ended) this.#port.write(`\n${formatRequest(request)}\n`);
  }

  async close(reason: ClosedReason): Promise<void> {
    if (!this.#ended) this.#end(reason);
    await this.#port.close();
  }

  /** Some boards send only after DTR has risen: when nothing has come it falls and rises once. */
  async #wakeUp(): Promise<void> {
    if (this.#lastByteAt_s !== null) return;
    await this.#port.setDtr(false);
    await new Promise((resolve) => setTimeout(resolve, DTR_PULSE_S * 1000));
    if (!this.#ended) await this.#port.setDtr(true);
  }

  /** On the same handle, since opening anew would restart many boards. Tells a new link. */
  async #trySpeed(speed_Bd: number | null): Promise<void> {
    if (speed_Bd === null || this.#ended) return;
    const changed = await this.#port.changeSpeed(speed_Bd).then(
      () => true,
      () => false,
    );
    if (!changed || this.#ended) return;
    this.#tellClosed('unplugged');
    this.#lines = this.#openLink();
    this.#options.onSpeed(speed_Bd);
  }

  #openLink(): LineReader {
    const { board, clock, tell } = this.#options;
    const link: Link = {
      source: 'serial',
      id: board.id,
      name: board.name,
      clock: 'arrival',
      wholeFromStart: false,
    };
    tell({ kind: 'opened', at_s: clock(), link });
    return createLineReader(tell);
  }

  #end(reason: ClosedReason): void {
    this.#ended = true;
    for (const timer of this.#timers) clearTimeout(timer);
    this.#tellClosed(reason);
  }

  #tellClosed(reason: ClosedReason): void {
    this.#options.tell({ kind: 'closed', at_s: this.#options.clock(), reason });
  }
}
