/** An emulated board as a child process: its port, what is done to it, what it counts. */
import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { createInterface } from 'node:readline';
import { until } from '../../support/server-process.ts';
import { emulator } from '../support/make.ts';

/** Something done to the board (runner/stimuli.h says what there is) at a time from the start. */
export interface Stimulus {
  readonly at_s: number;
  readonly what: string;
}

const REPORT_FIELDS = [
  /** Board time: since power was first applied, resets or not. */
  'time_s',
  /** How long the processor slept, and how long its transmitter was busy. */
  'slept_s',
  'line_busy_s',
  /** The longest that the emulation was behind real time. */
  'latest_s',
  /** Bytes that the program sent, and those that no host got. */
  'sent',
  'lost',
] as const;
export type Report = Readonly<Record<ReportField, number>>;
type ReportField = (typeof REPORT_FIELDS)[number];

export interface EmulatedBoard {
  readonly path: string;
  /** Now, in this order. */
  do(...what: string[]): void;
  /** Plans all of it from now on, in place of what was planned; resolves with the start's board time. */
  play(score: readonly Stimulus[]): Promise<number>;
  report(): Promise<Report>;
  /** Resolves once so much board time has passed. */
  pass(time_s: number): Promise<void>;
  /** The monitor's register, asked past the bus. */
  register(number: number): Promise<number>;
  /** Presses a button that connects this pin to ground, for long enough not to be a bounce. */
  press(pin: number): Promise<void>;
  /** The reset button; resolves with the board time at which the program began anew. */
  reset(): Promise<number>;
  stop(): Promise<void>;
}

/** Longer than anything here takes, even on a busy machine. */
export const PATIENCE_S = 150;


const PRESS_S = 0.15;

/** Starts a board with this firmware (a path to its .elf file). */
export async function startBoard(firmware: string): Promise<EmulatedBoard> {
  const child = spawn(await emulator(), [firmware], { stdio: ['pipe', 'pipe', 'inherit'] });
  const ended = once(child, 'exit') as Promise<[number | null]>;
  const replies = new Replies(child);
  const path = await replies.next('port');
  const tell = (lines: readonly string[]): void => {
    replies.check();
    child.stdin.write(lines.map((line) => `${line}\n`).join(''));
  };
  const board: EmulatedBoard = {
    path,
    do: (...what) => tell(what),
    async play(score) {
      const begun = replies.next('begun');
      tell(['begin', ...score.map(({ at_s, what }) => `at ${at_s.toFixed(6)} ${what}`)]);
      return Number(await begun);
    },
    async report() {
      tell(['report']);
      return parseReport(await replies.next('report'));
    },
    async pass(time_s) {
      const end_s = (await board.report()).time_s + time_s;
      await until(board.report, (report) => report.time_s >= end_s, PATIENCE_S);
    },
    async register(number) {
      tell([`monitor read ${number}`]);
      return Number((await replies.next('register')).split(' ')[1]);
    },
    async press(pin) {
      tell([`pin ${pin} 0`]);
      await board.pass(PRESS_S);
      tell([`pin ${pin} 1`]);
    },
    async reset() {
      const began = replies.next('reset');
      tell(['reset']);
      return Number(await began);
    },
    async stop() {
      child.stdin.end();
      await ended;
      replies.check();
    },
  };
  return board;
}

/** What the emulator says: one line each, the first word telling what it is. */
class Replies {
  readonly #waiting: { word: string; resolve: (rest: string) => void; reject: (error: Error) => void }[] = [];
  #fault: Error | null = null;

  constructor(child: ChildProcess) {
    if (child.stdout === null) throw new Error('the emulator has no output');
    createInterface({ input: child.stdout }).on('line', (line) => this.#take(line));
    child.on('exit', (code) => this.#fail(new Error(`the emulator ended with code ${code}`)));
  }

  /** The rest of the next line that begins with this word. */
  next(word: string): Promise<string> {
    return new Promise((resolve, reject) => this.#waiting.push({ word, resolve, reject }));
  }

  /** @throws when a stimulus was refused: the test is wrong then */
  check(): void {
    if (this.#fault !== null) throw this.#fault;
  }

  #take(line: string): void {
    const [word = '', ...rest] = line.split(' ');
    if (word === 'refused') this.#fault ??= new Error(`the emulator refused: ${rest.join(' ')}`);
    const index = this.#waiting.findIndex((one) => one.word === word);
    if (index >= 0) this.#waiting.splice(index, 1)[0]?.resolve(rest.join(' '));
  }

  #fail(error: Error): void {
    for (const one of this.#waiting.splice(0)) one.reject(error);
  }
}

function parseReport(text: string): Report {
  const pairs = new Map(text.split(' ').map((pair) => pair.split('=') as [string, string]));
  return Object.fromEntries(REPORT_FIELDS.map((field) => [field, Number(pairs.get(field))])) as Report;
}
