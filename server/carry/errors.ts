/** Foreseen failures with a session's file. Each message says what to do; docs/errors.md lists them. */

export type FileErrorCode =
  /** There is no such file. */
  | 'file-missing'
  /** It is no session's file: not a zip archive, or one without what makes a session. */
  | 'file-not-session'
  /** There is no plan in it that can be carried out. */
  | 'file-without-plan'
  /** It was cut off or altered on the way. */
  | 'file-damaged'
  /** A newer Stillmark wrote it. */
  | 'file-too-new'
  /** It holds more than any lesson does. */
  | 'file-too-large'
  /** Something is there already, and is not overwritten. */
  | 'file-exists'
  /** It can't be written or read. */
  | 'file-unusable';

export class FileError extends Error {
  readonly code: FileErrorCode;

  constructor(code: FileErrorCode, message: string, options?: ErrorOptions) {
    super(message, options);
    this.name = 'FileError';
    this.code = code;
  }
}
