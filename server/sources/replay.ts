import { columnNamed, type TimeUnit } from '#protocol/plain-header.ts';
import { fileLink, readCsvLines } from './csv.ts';
import { separatorIn, type CsvSeparator } from '#core/csv-rows.ts';
import type { RecordingClock, Source, SourceListener } from './source.ts';

/** Lines that are due within so short a time are told together. */
const TURN_S = 0.02;

export interface ReplayOptions {
  readonly file: string;
  /** How much faster than it was recorded. */
  readonly speed: number;
  readonly clock: RecordingClock;
  readonly listener: SourceListener;
}

/** A recorded file, paced by its own time column. Ends by itself with its last row. */
export function openReplay(options: ReplayOptions): Source {
  return new Replay(options);
}

class Replay implements Source {
  readonly #options: ReplayOptions;
  readonly #finished: Promise<void>;
  #stopping: 'ended' | 'replaced' | null = null;
  #wake: () => void = () => undefined;

  constructor(options: ReplayOptions) {
    this.#options = options;
    this.#finished = this.#run();
  }

  presumeLost(): void {}

  /** A file has no board to ask. */
  ask(): void {}

  close(reason: 'ended' | 'replaced' = 'ended'): Promise<void> {
    this.#stopping ??= reason;
    this.#wake();
    return this.#finished;
  }

  async #run(): Promise<void> {
    const { file, clock, listener } = this.#options;
    listener.port({ phase: 'replaying', file });
    listener.input({ kind: 'opened', at_s: clock(), link: fileLink(file) });
    const message = await this.#play().catch(messageOf);
    const reason = this.#stopping ?? 'ended';
    listener.input({ kind: 'closed', at_s: clock(), reason });
    if (reason === 'ended') listener.port({ phase: 'ended', ...(message ? { message } : {}) });
  }

  async #play(): Promise<void> {
    const { file, speed, clock, listener } = this.#options;
    const dueAt_s = createPace(speed, clock);
    for await (const batch of readCsvLines(file)) {
      for (const text of batch.lines) {
        await this.#waitUntil(dueAt_s(text));
        if (this.#stopping !== null) return;
        listener.input({ kind: 'line', at_s: clock(), text });
      }
      if (batch.dropped === undefined) continue;
      listener.input({ kind: 'dropped', at_s: clock(), fault: batch.dropped, count: 1 });
    }
  }

  async #waitUntil(due_s: number): Promise<void> {
    const wait_s = due_s - this.#options.clock();
    if (wait_s <= 0 || this.#stopping !== null) return;
    await new Promise<void>((resolve) => {
      const timer = setTimeout(resolve, Math.max(wait_s, TURN_S) * 1000);
      this.#wake = () => {
        clearTimeout(timer);
        resolve();
      };
    });
  }
}

/**
 * When each line is due on the clock, given the lines in order, the header first. Where the file's
 * time goes back, it begins anew from there; a line without a time is due with the one before.
 */
function createPace(speed: number, clock: RecordingClock): (text: string) => number {
  let timeOf_s: ((text: string) => number) | null = null;
  let start: { readonly time_s: number; readonly at_s: number } | null = null;
  let last_s = -Infinity;
  let due_s = 0;
  return (text) => {
    if (timeOf_s === null) {
      timeOf_s = timeReader(text);
      return due_s;
    }
    const time_s = timeOf_s(text);
    if (!Number.isFinite(time_s)) return due_s;
    if (start === null || time_s < last_s) start = { time_s, at_s: clock() };
    last_s = time_s;
    due_s = start.at_s + (time_s - start.time_s) / speed;
    return due_s;
  };
}

const UNITS_PER_S: Readonly<Record<TimeUnit, number>> = { us: 1e6, ms: 1e3, s: 1 };

/** Reads the time of a line below this header; NaN where there is none. */
function timeReader(header: string): (text: string) => number {
  const separator: CsvSeparator = separatorIn(header);
  const columns = header.split(separator).map(columnNamed);
  const at = columns.findIndex(({ role }) => role === 'time');
  const column = columns[at];
  const unitsPerS = column?.role === 'time' ? UNITS_PER_S[column.unit] : 1;
  return (text) => Number.parseFloat(text.split(separator)[at] ?? '') / unitsPerS;
}

function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
