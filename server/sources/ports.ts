import type { Board } from '#core/link.ts';

/** The computer's serial ports: all the hardware that the serial source touches. */
export interface Ports {
  /** Boards attached now. Rejects where the system can't list them. */
  list(): Promise<Board[]>;
  /** What a path given by hand stands for (links followed); null when there is nothing. */
  resolve(path: string): Promise<string | null>;
  /** Opens and locks. Rejects with a `PortRefusal`. */
  open(path: string, speed_Bd: number): Promise<OpenPort>;
}

export interface OpenPort {
  /** To be called once, in the turn in which `open` resolved: nothing has been read before. */
  listen(listener: PortListener): void;
  /** Data Terminal Ready; some boards send only while it is set, some restart when it rises. */
  setDtr(on: boolean): Promise<void>;
  changeSpeed(speed_Bd: number): Promise<void>;
  /** Hands ASCII text over for sending. A port that can't take it says `lost`. */
  write(text: string): void;
  /** Resolves when the handle is given back, and in any case after a while. */
  close(): Promise<void>;
}

export interface PortListener {
  bytes(chunk: Uint8Array): void;
  /** The port says of itself that it has gone. */
  lost(): void;
}

export type RefusalCode = 'busy' | 'denied' | 'missing' | 'failed';

/** The operating system would not open a port. `message` says what to do. */
export class PortRefusal extends Error {
  readonly code: RefusalCode;
  /** Names in the message. */
  readonly about: readonly string[];
  constructor(code: RefusalCode, message: string, about: readonly string[] = []) {
    super(message);
    this.code = code;
    this.about = about;
  }
}
