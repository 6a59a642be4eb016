/** The main thread's line to the writing thread: calls out, answers and news back. */
import type { Notice } from '#core/events.ts';
import type { StoreState } from '#core/live-messages.ts';
import { StoreError } from './errors.ts';
import type { Call, Told } from './messages.ts';
import { startThread } from './threads.ts';
import type { Writer } from './writer.ts';

export interface WriterConnection {
  call<M extends keyof Writer>(
    method: M,
    parameters: Parameters<Writer[M]>,
    /** Buffers that are handed over instead of copied. */
    transfer?: ArrayBuffer[],
  ): Promise<Awaited<ReturnType<Writer[M]>>>;
  problems(): readonly Notice[];
  /** Saves what waits, then ends the thread. */
  close(): Promise<void>;
}

interface Waiting {
  resolve(value: unknown): void;
  reject(error: StoreError): void;
}

/** Resolves once the data folder is open; rejects with the `StoreError` that prevents it. */
export async function connectWriter(
  dataFolder: string,
  onState: (state: StoreState) => void,
): Promise<WriterConnection> {
  const thread = startThread({ role: 'write', dataFolder });
  const waiting = new Map<number, Waiting>();
  let problems: readonly Notice[] = [];
  let lastId = 0;
  let broken: StoreError | null = null;

  const opened = new Promise<void>((resolve, reject) => {
    thread.on('message', (told: Told) => {
      if (told.kind === 'open') resolve();
      else if (told.kind === 'not-open') reject(new StoreError(told.code, told.message));
      else hear(told);
    });
    thread.on('error', (error) => {
      breakOff(error);
      reject(error);
    });
  });

  function hear(told: Exclude<Told, { kind: 'open' | 'not-open' }>): void {
    if (told.kind === 'state') return onState(told.state);
    if (told.kind === 'problems') {
      problems = told.problems;
      return;
    }
    const call = waiting.get(told.id);
    waiting.delete(told.id);
    if (told.kind === 'done') call?.resolve(told.value);
    else call?.reject(new StoreError(told.code, told.message));
  }

  /** A fault of ours in the thread: nothing more can be saved, and everyone is told. */
  function breakOff(error: Error): void {
    const message =
      `Saving has stopped because of a fault in Stillmark (${error.message}). ` +
      'What is shown as logged is on disk: start Stillmark again to go on.';
    broken = new StoreError('not-saved', message, { cause: error });
    onState({ ok: false, message });
    for (const { reject } of waiting.values()) reject(broken);
    waiting.clear();
  }

  const call: WriterConnection['call'] = (method, parameters, transfer = []) =>
    new Promise((resolve, reject) => {
      if (broken !== null) return reject(broken);
      const id = ++lastId;
      waiting.set(id, { resolve: resolve as (value: unknown) => void, reject });
      const message: Call = { id, method, parameters };
      thread.postMessage(message, transfer);
    });

  await opened;
  return {
    call,
    problems: () => problems,
    close: async () => {
      if (broken === null) await call('close', []);
      await thread.terminate();
    },
  };
}
