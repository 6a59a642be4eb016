/** Foreseen failures of the data folder. Each message says what to do; docs/errors.md lists the codes. */

export type StoreErrorCode =
  /** Another server uses the data folder. */
  | 'data-folder-in-use'
  /** The data folder can't be made, read or written. */
  | 'data-folder-unusable'
  /** The data file was written by a newer Stillmark. */
  | 'data-too-new'
  /** A reader wants the data file brought up to date, which only a server does. */
  | 'data-too-old'
  /** There is no data file in the folder. */
  | 'no-data'
  /** Something stored can't be read back as it was written. */
  | 'data-damaged'
  /** Something stored is intact, but of a shape that this version does not know. */
  | 'unknown-shape'
  /** Saving fell further behind than memory is kept for. */
  | 'save-queue-full'
  /** What was handed over can't be stored: a fault of ours. */
  | 'not-storable'
  /** The store was closed, or its worker failed, before this was on disk. */
  | 'not-saved';

export class StoreError extends Error {
  readonly code: StoreErrorCode;

  constructor(code: StoreErrorCode, message: string, options?: ErrorOptions) {
    super(message, options);
    this.name = 'StoreError';
    this.code = code;
  }
}
