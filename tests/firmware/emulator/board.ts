/** An emulated board as a child process: its port, what is done to it, what it counts. */
import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { createInterface } from 'node:readline';
import { emulator } from '../support/make.ts';

/** Something done to the board (runner/stimuli.h says what there is) at a time from the start. */
export interface Stimulus {
  readonly at_s: number;
  readonly what: string;
}

/** What the emulator counts. Times are board time: seconds since power was first applied. */
export type Report = Readonly<Record<ReportField, number>>;
const REPORT_FIELDS = [
  'time_s', 'slept_s', 'latest_s', 'conversions', 'transfers', 'sent', 'received', 'lost',
  'line_busy_s', 'pulses2', 'pulses3',
] as const;
type ReportField = (typeof REPORT_FIELDS)[number];

export interface EmulatedBoard {
  readonly path: string;
  /** Now, in this order. */
  do(...what: string[]): void;
  /** Plans all of it from now on, in order of time; resolves with the board time of its start. */
  play(score: readonly Stimulus[]): Promise<number>;
  report(): Promise<Report>;
  /** The monitor's register, asked past the bus. */
  register(number: number): Promise<number>;
  /** How often the board has started anew because a host opened its port, or by its button. */
  resets(): number;
  stop(): Promise<void>;
}

/** Between planning and the first stimulus: the plan must arrive before its time. */
const LEAD_S = 0.2;

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
      const start_s = (await board.report()).time_s + LEAD_S;
      tell(score.map(({ at_s, what }) => `at ${(start_s + at_s).toFixed(6)} ${what}`));
      return start_s;
    },
    async report() {
      tell(['report']);
      return parseReport(await replies.next('report'));
    },
    async register(number) {
      tell([`monitor read ${number}`]);
      return Number((await replies.next('register')).split(' ')[1]);
    },
    resets: () => replies.resets,
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
  resets = 0;

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
    if (word === 'reset') this.resets += 1;
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
