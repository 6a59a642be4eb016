/** Steps for the program `board`: the library's board in a time that the test makes. */
import { parseFrame } from '#protocol/stillmark-line.ts';
import type { Fault, Frame } from '#protocol/frame.ts';
import { answersOf } from './programs.ts';

/** What board.cpp announces. */
export const CHANNEL_COUNT = 3;
export const PERIOD_US = 20_000;
export const SHORTEST_US = 5000;
export const LONGEST_US = 1_000_000;
export const GRAIN_US = 500;

const SPAN = 2 ** 32;
const TICK_US = 1000;
/** A line that never makes anything wait: bytes in TICK_US. */
const FAST_BYTES = 1000;

export interface Said {
  /** Time since the start of the script. */
  readonly at_us: number;
  readonly line: string;
  readonly frame: Frame | Fault;
}

/** The port while time passes. */
export interface Port {
  readonly hasRoom: boolean;
  /** The most bytes it takes in a millisecond. */
  readonly bytes: number;
}
const FAST: Port = { hasRoom: true, bytes: FAST_BYTES };

export class BoardScript {
  readonly #steps: string[] = [];
  readonly #drainedAt_us: number[] = [];
  readonly #start_us: number;
  #elapsed_us = 0;

  /** `start_us`: what the board's clock says when it starts. */
  constructor(start_us = 0) {
    this.#start_us = start_us;
    this.#step('begin');
  }

  get elapsed_us(): number {
    return this.#elapsed_us;
  }

  /** Device time. */
  get now_us(): number {
    return (this.#start_us + this.#elapsed_us) % SPAN;
  }

  sample(sequence: number, ...counts: readonly (number | null)[]): this {
    const { now_us } = this;
    return this.#step('sample', sequence % 2 ** 16, now_us, ...counts.map((count) => count ?? '-'));
  }

  host(line: string): this {
    return this.#step('host', line);
  }

  press(button: 'log' | 'strike' | 'next'): this {
    return this.#step('press', ['log', 'strike', 'next'].indexOf(button));
  }

  over(channel: number): this {
    return this.#step('over', channel);
  }

  /** The sketch's loop for that long, once a millisecond; `each` is called before every round. */
  run(length_us: number, each?: (elapsed_us: number) => void, port: Port = FAST): this {
    const end_us = this.#elapsed_us + length_us;
    while (this.#elapsed_us < end_us) {
      each?.(this.#elapsed_us);
      this.#step('tick', port.hasRoom ? 1 : 0);
      if (port.hasRoom) {
        this.#step('drain', port.bytes);
        this.#drainedAt_us.push(this.#elapsed_us);
      }
      this.#elapsed_us += TICK_US;
    }
    return this;
  }

  /** Plays it; all bytes that were sent. */
  async bytes(): Promise<string> {
    const answers = await answersOf('board', this.#steps);
    return answers.map((hex) => Buffer.from(hex, 'hex').toString('latin1')).join('');
  }

  /** Plays it; the lines with the time at which each ended. */
  async said(): Promise<Said[]> {
    const answers = await answersOf('board', this.#steps);
    const lines: Said[] = [];
    let line = '';
    answers.forEach((hex, index) => {
      for (const character of Buffer.from(hex, 'hex').toString('latin1')) {
        if (character !== '\n') {
          line += character;
        } else if (line !== '') {
          lines.push({ at_us: this.#drainedAt_us[index] as number, line, frame: parseFrame(line) });
          line = '';
        }
      }
    });
    return lines;
  }

  #step(word: string, ...rest: readonly (string | number)[]): this {
    this.#steps.push([word, this.now_us, ...rest].join(' '));
    return this;
  }
}

export function kinds(said: readonly Said[]): string[] {
  return said.map(({ frame }) => frame.kind);
}

export function framesOf<K extends Frame['kind']>(
  said: readonly Said[],
  kind: K,
): Extract<Frame, { kind: K }>[] {
  return said.map(({ frame }) => frame).filter((frame) => frame.kind === kind) as Extract<
    Frame,
    { kind: K }
  >[];
}
