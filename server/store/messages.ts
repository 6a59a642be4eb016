/** What the main thread and the store's threads say to each other. */
import type { Notice } from '#core/events.ts';
import type { StoreState } from '#core/live-messages.ts';
import type { StoreErrorCode } from './errors.ts';
import type { Writer } from './writer.ts';

/** What a thread is started with. */
export interface Task {
  /** write: the one writer; check, copy: once through the data file, beside the writer. */
  readonly role: 'write' | 'check' | 'copy';
  readonly dataFolder: string;
}

/** One call of a method of the writer. */
export interface Call {
  readonly id: number;
  readonly method: keyof Writer;
  readonly parameters: readonly unknown[];
}

/** From the writing thread: answers, and news that nobody asked for. */
export type Told =
  | { readonly kind: 'open' }
  | { readonly kind: 'not-open'; readonly code: StoreErrorCode; readonly message: string }
  | { readonly kind: 'done'; readonly id: number; readonly value: unknown }
  | {
      readonly kind: 'refused';
      readonly id: number;
      readonly code: StoreErrorCode;
      readonly message: string;
    }
  | { readonly kind: 'state'; readonly state: StoreState }
  | { readonly kind: 'problems'; readonly problems: readonly Notice[] };

/** From a thread that checks or copies, once: what a person should know. */
export interface UpkeepOutcome {
  readonly problems: readonly Notice[];
}
