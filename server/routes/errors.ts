/** Every refusal over HTTP, each explained in docs/errors.md (a test holds the two together). */
export const HTTP_ERRORS = [
  { code: 'host-refused', status: 403 },
  { code: 'origin-refused', status: 403 },
  { code: 'viewers-only', status: 403 },
  { code: 'bench-only', status: 403 },
  { code: 'pass-unknown', status: 403 },
  { code: 'pass-ended', status: 403 },
  { code: 'not-found', status: 404 },
  { code: 'trial-unknown', status: 404 },
  { code: 'board-unknown', status: 404 },
  { code: 'session-unknown', status: 404 },
  { code: 'session-refused', status: 409 },
  { code: 'file-refused', status: 422 },
  { code: 'replay-only', status: 409 },
  { code: 'method-refused', status: 405 },
  { code: 'columns-refused', status: 409 },
  { code: 'zero-refused', status: 409 },
  { code: 'zero-doubtful', status: 409 },
  { code: 'plan-refused', status: 409 },
  { code: 'command-refused', status: 409 },
  { code: 'door-refused', status: 409 },
  { code: 'passes-full', status: 409 },
  { code: 'command-stale', status: 412 },
  { code: 'request-too-slow', status: 408 },
  { code: 'body-too-large', status: 413 },
  { code: 'json-only', status: 415 },
  { code: 'bad-request', status: 400 },
  { code: 'bad-json', status: 400 },
  { code: 'bad-field', status: 400 },
  { code: 'too-many-requests', status: 429 },
  { code: 'head-too-large', status: 431 },
  { code: 'internal', status: 500 },
  { code: 'page-not-built', status: 503 },
  { code: 'saving-stopped', status: 503 },
] as const;
export type HttpErrorCode = (typeof HTTP_ERRORS)[number]['code'];

/** A refusal with a sentence that says what to do. */
export class HttpError extends Error {
  override readonly name = 'HttpError';
  readonly code: HttpErrorCode;
  readonly status: number;
  /** Names and numbers of the message, for a page that says it in its own language. */
  readonly about: readonly string[] | undefined;

  constructor(code: HttpErrorCode, message: string, about?: readonly string[]) {
    super(message);
    this.code = code;
    this.about = about;
    this.status = HTTP_ERRORS.find((row) => row.code === code)?.status ?? 500;
  }
}
