/** What is at hand while a session is chosen. */
import { signal, type Signal } from '@preact/signals';
import type { SessionsResponse, TakenInResponse } from '#core/live-messages.ts';

export type Session = SessionsResponse['sessions'][number];

export interface Sessions {
  readonly isShown: Signal<boolean>;
  /** What the data folder holds, newest first; null until it was asked for. */
  readonly kept: Signal<readonly Session[] | null>;
  readonly name: Signal<string>;
  /** What is looked for among them. */
  readonly wanted: Signal<string>;
  /** The session whose file is being written. */
  readonly savingId: Signal<string | null>;
  /** What became of the file that was taken in last. */
  readonly taken: Signal<TakenInResponse | null>;
}

export function createSessions(): Sessions {
  return {
    isShown: signal(false),
    kept: signal<readonly Session[] | null>(null),
    name: signal(''),
    wanted: signal(''),
    savingId: signal<string | null>(null),
    taken: signal<TakenInResponse | null>(null),
  };
}

/** Whether all the words that are looked for stand somewhere in these texts. */
export function isWanted(wanted: string, texts: readonly string[]): boolean {
  const text = texts.join(' ').toLowerCase();
  return wanted.toLowerCase().split(/\s+/).every((word) => text.includes(word));
}
