/** What is at hand while a session is chosen. */
import { signal, type Signal } from '@preact/signals';
import type { SessionsResponse } from '#core/live-messages.ts';

type Session = SessionsResponse['sessions'][number];

export interface Sessions {
  readonly isShown: Signal<boolean>;
  /** What the data folder holds, newest first; null until it was asked for. */
  readonly kept: Signal<readonly Session[] | null>;
  readonly name: Signal<string>;
}

export function createSessions(): Sessions {
  return {
    isShown: signal(false),
    kept: signal<readonly Session[] | null>(null),
    name: signal(''),
  };
}
