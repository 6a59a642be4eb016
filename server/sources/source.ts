import type { Request } from '#protocol/frame.ts';
import type { Input } from '#core/inputs.ts';
import type { Board, PortState } from '#core/link.ts';

/** What a source tells the program; it never looks inside a line. */
export interface SourceListener {
  /** An input for the pipeline, in order. `at_s` comes from `clock`: a whole number of µs. */
  input(input: Input): void;
  /** The port's state changed. */
  port(state: PortState): void;
  /** The boards that are attached and not in use changed. Only the serial source tells this. */
  offers(boards: readonly Board[]): void;
}

/** A running source of lines: a serial port, the simulated rig, or a file being replayed. */
export interface Source {
  /**
   * The pipeline says that nothing arrives any more. A serial source then looks whether the board
   * is still there and takes it up afresh; to other sources silence means nothing.
   */
  presumeLost(): void;
  /**
   * The pipeline asks the board for something. Only a source with a board behind it passes it on;
   * whether it arrived shows in what the board says next.
   */
  ask(request: Request): void;
  /**
   * Ends it; the last input is `closed`, with this reason (default: ended).
   * Resolves when nothing more will be told.
   */
  close(reason?: 'ended' | 'replaced'): Promise<void>;
}

/** Seconds since the recording began on a monotonic clock, rounded to whole microseconds. */
export type RecordingClock = () => number;
