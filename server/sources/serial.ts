/** The serial source: keeps one board open, whatever happens to the cable. */
import type { Request } from '#protocol/frame.ts';
import type { Board, PortState } from '#core/link.ts';
import { createAttachments, type Attachments } from './attachments.ts';
import { LOOK_EVERY_S } from './boards.ts';
import { chooseBoard, type Want } from './choice.ts';
import { connect, type Connection } from './connection.ts';
import { boardAtPath, isSameAttachment, isUsb } from './naming.ts';
import { PortRefusal, type Ports } from './ports.ts';
import { refusalOf, NOTHING_KNOWN } from './refusal.ts';
import type { RecordingClock, Source, SourceListener } from './source.ts';
import { checkSpeed, USUAL_SPEED_BD } from './speed.ts';

export interface SerialOptions {
  readonly want: Want;
  readonly clock: RecordingClock;
  readonly listener: SourceListener;
  readonly ports: Ports;
  /** Line speed to begin with; others are tried when what comes is not text. Never 1200. */
  readonly speed_Bd?: number;
}

/** Waits between attempts to open a port that is refused or does not last; the last one repeats. */
const RETRY_AFTER_S = [0.5, 1, 2, 4, 5] as const;
/** A connection that lasted less is counted as an attempt that failed. */
const LASTING_S = 2;
/** The node of a new device gets its owner and rights a moment after it appears. */
const NEW_NODE_S = 2;
/** System services look at a new port for so long; a board that leaves sooner was perhaps taken. */
const PROBED_FOR_S = 15;
/** Silence of lines is not believed while bytes come. */
const QUIET_S = 2;

const PROBING =
  'The system is still checking the new board, which takes up to 15 s. Stillmark then takes the board by itself.';
const TAKEN =
  'The board went away seconds after it was plugged in: its plug may be loose, or a service of this computer has taken it. docs/boards.md tells how to find out.';

/**
 * For a path given on the command line, where a slip of the finger should be told at once.
 * @throws PortRefusal `missing` when there is nothing at the path
 */
export async function checkPath(ports: Pick<Ports, 'resolve'>, path: string): Promise<void> {
  if ((await ports.resolve(path)) === null) throw nothingAt(path);
}

function nothingAt(path: string): PortRefusal {
  return refusalOf(path, 'no such file', NOTHING_KNOWN);
}

/**
 * Opens the wanted board as soon as it is there, and again whenever it returns.
 * @throws a coded error for a speed that is refused
 */
export function openSerial(options: SerialOptions): Source {
  checkSpeed(options.speed_Bd ?? USUAL_SPEED_BD);
  return new SerialSource(options);
}

/**
 * One loop, one turn a second and at every event: look at what is attached; let go of a connection
 * that is no more; open the wanted board when there is none.
 */
class SerialSource implements Source {
  readonly #options: SerialOptions;
  readonly #attached: Attachments;
  readonly #finished: Promise<void>;
  #connection: Connection | null = null;
  #openedAt_s = 0;
  /** The board in use, or the last that was tried, to know it again. */
  #board: Board | null = null;
  #speed_Bd: number;
  #failures = 0;
  #retryAt_s = 0;
  /** When the pipeline last said that nothing arrives; null when that is settled. */
  #doubtedAt_s: number | null = null;
  #stopping: 'ended' | 'replaced' | null = null;
  #wake: () => void = () => undefined;
  readonly #tellPort: (state: PortState) => void;
  readonly #tellOffers: (boards: readonly Board[]) => void;

  constructor(options: SerialOptions) {
    this.#options = options;
    this.#attached = createAttachments(options.ports, options.clock);
    this.#speed_Bd = options.speed_Bd ?? USUAL_SPEED_BD;
    this.#tellPort = onlyChanges((state) => options.listener.port(state));
    this.#tellOffers = onlyChanges((boards) => options.listener.offers(boards));
    this.#finished = this.#run();
  }

  presumeLost(): void {
    this.#doubtedAt_s = this.#options.clock();
    this.#wake();
  }

  ask(request: Request): void {
    this.#connection?.ask(request);
  }

  close(reason: 'ended' | 'replaced' = 'ended'): Promise<void> {
    this.#stopping ??= reason;
    this.#wake();
    return this.#finished;
  }

  async #run(): Promise<void> {
    while (this.#stopping === null) {
      await this.#attached.look();
      if (this.#connection !== null) await this.#checkConnection(this.#connection);
      if (this.#connection === null) await this.#tryToOpen();
      this.#tellOffers(this.#offers());
      await this.#pause();
    }
    await this.#letGo(this.#stopping);
    if (this.#stopping === 'ended') this.#tellPort({ phase: 'ended' });
  }

  async #checkConnection(connection: Connection): Promise<void> {
    const isOver = connection.isLost() || this.#hasFallenSilent(connection);
    if (isOver || !(await this.#isAttached())) await this.#letGo('unplugged');
  }

  /**
   * A board that has not said anything since it was opened is left alone: opening it again would
   * restart many boards, and again, and again.
   */
  #hasFallenSilent(connection: Connection): boolean {
    const last_s = connection.lastByteAt_s();
    if (this.#doubtedAt_s === null || last_s === null) return false;
    if (last_s >= this.#doubtedAt_s) this.#doubtedAt_s = null;
    return this.#doubtedAt_s !== null && this.#options.clock() - last_s > QUIET_S;
  }

  async #isAttached(): Promise<boolean> {
    const board = this.#board;
    if (board === null) return false;
    if (this.#attached.boards().some((other) => isSameAttachment(other, board))) return true;
    return !isUsb(board) && (await this.#options.ports.resolve(board.path)) !== null;
  }

  async #letGo(reason: 'unplugged' | 'ended' | 'replaced'): Promise<void> {
    const connection = this.#connection;
    if (connection === null) return;
    this.#connection = null;
    this.#doubtedAt_s = null;
    await connection.close(reason);
    const lasted_s = this.#options.clock() - this.#openedAt_s;
    if (lasted_s >= LASTING_S) {
      this.#failures = 0;
    } else if (reason === 'unplugged' && this.#board !== null) {
      this.#countFailure();
      this.#tellPort({ phase: 'opening', board: this.#board });
    }
  }

  #countFailure(): void {
    const wait_s = RETRY_AFTER_S[Math.min(this.#failures, RETRY_AFTER_S.length - 1)] ?? 0;
    this.#retryAt_s = this.#options.clock() + wait_s;
    this.#failures += 1;
  }

  async #tryToOpen(): Promise<void> {
    const board = await this.#find();
    if (board === null) {
      this.#failures = 0;
      this.#retryAt_s = 0;
      this.#tellWaiting();
      return;
    }
    if (this.#options.clock() < this.#retryAt_s || this.#stopping !== null) return;
    this.#board = board;
    if (this.#failures === 0) this.#tellPort({ phase: 'opening', board });
    try {
      this.#connection = await this.#connect(board);
      this.#openedAt_s = this.#options.clock();
      this.#tellPort({ phase: 'open', board, speed_Bd: this.#speed_Bd });
    } catch (error) {
      this.#countFailure();
      this.#tellRefusal(board, error);
    }
  }

  #connect(board: Board): Promise<Connection> {
    const { ports, clock, listener } = this.#options;
    return connect({
      ports,
      board,
      clock,
      speed_Bd: this.#speed_Bd,
      tell: (input) => listener.input(input),
      onSpeed: (speed_Bd) => {
        this.#speed_Bd = speed_Bd;
        this.#tellPort({ phase: 'open', board, speed_Bd });
      },
      onLost: () => this.#wake(),
    });
  }

  /** The board to open, by identity first; a path given by hand works though nothing lists it. */
  async #find(): Promise<Board | null> {
    const { want, ports } = this.#options;
    const chosen = chooseBoard(this.#attached.boards(), want, this.#board);
    if (chosen !== null || !('path' in want)) return chosen;
    if (this.#board !== null && isUsb(this.#board)) return null;
    const path = await ports.resolve(want.path);
    if (path === null) return null;
    return this.#attached.boards().find((board) => board.path === path) ?? boardAtPath(want.path);
  }

  #tellWaiting(): void {
    const { want } = this.#options;
    if (this.#board !== null) {
      const stayed_s = this.#attached.stay_s(this.#board);
      const more = stayed_s < PROBED_FOR_S ? { message: TAKEN } : {};
      this.#tellPort({ phase: 'unplugged', board: this.#board, ...more });
    } else if ('path' in want) {
      const { code, message, about } = nothingAt(want.path);
      this.#tellPort({ phase: 'refused', board: boardAtPath(want.path), code, message, about });
    } else {
      this.#tellPort({ phase: 'searching' });
    }
  }

  #tellRefusal(board: Board, error: unknown): void {
    const { code, message, about } =
      error instanceof PortRefusal ? error : refusalOf(board.path, String(error), NOTHING_KNOWN);
    const age_s = this.#attached.age_s(board);
    if (code === 'missing') this.#tellPort({ phase: 'unplugged', board });
    else if (code === 'busy' && age_s < PROBED_FOR_S) {
      // No path: nothing there is to be closed.
      this.#tellPort({ phase: 'refused', board, code, message: PROBING, about: ['', ''] });
    } else if (age_s >= NEW_NODE_S) {
      this.#tellPort({ phase: 'refused', board, code, message, about });
    }
  }

  #offers(): Board[] {
    return this.#attached.boards().filter((board) => isUsb(board) && board.id !== this.#board?.id);
  }

  /** Until the next look, the next attempt, or an event that is worth a look now. */
  async #pause(): Promise<void> {
    if (this.#stopping !== null || this.#connection?.isLost()) return;
    const retry_s = this.#retryAt_s - this.#options.clock();
    const isWaiting = this.#connection === null && retry_s > 0;
    const wait_s = isWaiting ? Math.min(retry_s, LOOK_EVERY_S) : LOOK_EVERY_S;
    await new Promise<void>((resolve) => {
      const timer = setTimeout(resolve, wait_s * 1000);
      this.#wake = () => {
        clearTimeout(timer);
        resolve();
      };
    });
  }
}

/** Passes a value on when it differs from the one before. */
function onlyChanges<T>(tell: (value: T) => void): (value: T) => void {
  let told: string | null = null;
  return (value) => {
    const now = JSON.stringify(value);
    if (now !== told) tell(value);
    told = now;
  };
}
