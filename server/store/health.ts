/** Whether saving works, put together for the banner on every page. */
import type { StoreState } from '#core/live-messages.ts';

export interface Health {
  /** What the writing thread says. */
  writerState(state: StoreState): void;
  /** Why the recording that runs is no longer kept; null when it is. */
  recordingCut(message: string | null): void;
  /** The listener hears the state now, when it is not well, and every change of it. */
  onState(listener: (state: StoreState) => void): void;
}

export function createHealth(): Health {
  const listeners: ((state: StoreState) => void)[] = [];
  let writer: StoreState = { ok: true, message: null };
  let cut: string | null = null;
  let last = writer;

  function tell(): void {
    const messages = new Set([cut, writer.message].filter((message) => message !== null));
    const ok = writer.ok && cut === null;
    const message = messages.size === 0 ? null : [...messages].join(' ');
    if (ok === last.ok && message === last.message) return;
    last = message === writer.message ? { ...writer, ok } : { ok, message };
    for (const listener of listeners) listener(last);
  }

  return {
    writerState: (state) => {
      writer = state;
      tell();
    },
    recordingCut: (message) => {
      cut = message;
      tell();
    },
    onState: (listener) => {
      listeners.push(listener);
      if (!last.ok) listener(last);
    },
  };
}
