/** A table of trials that is being looked at before it is brought in. */
import { signal, type Signal } from '@preact/signals';
import { LARGEST_ARCHIVE_bytes, textInArchive } from '../view/archive.ts';

export interface BringingIn {
  readonly isShown: Signal<boolean>;
  readonly text: Signal<string>;
  /** Name of the file; "" for what was pasted. */
  readonly name: Signal<string>;
  /** Rows that are here already are wanted once more. */
  readonly again: Signal<boolean>;
  /** The group whose trials they are; null: as the table says. */
  readonly group: Signal<string | null>;
  /** Why nothing can be made of the file that was chosen. */
  readonly problem: Signal<'tooLarge' | 'noSession' | null>;
}

/** A request with a table holds as much. */
export const LONGEST_TABLE = 500_000;

export function createBringingIn(): BringingIn {
  return {
    isShown: signal(false),
    text: signal(''),
    name: signal(''),
    again: signal(false),
    group: signal<string | null>(null),
    problem: signal(null),
  };
}

export function putTable(table: BringingIn, text: string, name: string): void {
  const isTooLarge = text.length > LONGEST_TABLE;
  table.text.value = isTooLarge ? '' : text;
  table.name.value = name;
  table.problem.value = isTooLarge ? 'tooLarge' : null;
  table.again.value = false;
  table.group.value = null;
}

const TRIALS = 'trials.csv';

/** A table, or the table of trials in a session's file. */
export async function takeFile(table: BringingIn, file: File): Promise<void> {
  const isSession = /\.zip$/i.test(file.name);
  const most_bytes = isSession ? LARGEST_ARCHIVE_bytes : 4 * LONGEST_TABLE;
  // What is far too large need not be read to be known as such.
  const text = file.size > most_bytes ? TOO_LONG : await textIn(file, isSession);
  putTable(table, text ?? '', file.name);
  if (text === null) table.problem.value = 'noSession';
}

const TOO_LONG = ' '.repeat(LONGEST_TABLE + 1);

/** Null where a session's file holds none, or is no such file. */
async function textIn(file: File, isSession: boolean): Promise<string | null> {
  if (!isSession) return file.text();
  const bytes = new Uint8Array(await file.arrayBuffer());
  return textInArchive(bytes, TRIALS, 4 * LONGEST_TABLE);
}
