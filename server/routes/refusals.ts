/** Turns whatever goes wrong with a request into the one error shape of the API. */
import type { FastifyError, FastifyReply, FastifyRequest } from 'fastify';
import type { ErrorResponse } from '#core/live-messages.ts';
import { HttpError } from './errors.ts';
import { securityHeaders } from './headers.ts';

/** A failed world told by another module: an error with a code like `disk-full`. */
const OWN_CODE = /^[a-z]+(-[a-z]+)*$/;
const FAILED_WORLD_STATUS = 503;

/** What fastify itself refuses, in our words. */
const FASTIFY_REFUSALS: Readonly<Record<string, () => HttpError>> = {
  FST_ERR_CTP_BODY_TOO_LARGE: () =>
    new HttpError('body-too-large', 'The request is too large.'),
  FST_ERR_CTP_INVALID_MEDIA_TYPE: () =>
    new HttpError('json-only', 'Send JSON, with the header "content-type: application/json".'),
  FST_ERR_CTP_EMPTY_JSON_BODY: () => badJson(),
  FST_ERR_CTP_INVALID_JSON_BODY: () => badJson(),
  FST_ERR_BAD_URL: () => badRequest(),
};

function badJson(): HttpError {
  return new HttpError('bad-json', 'The body of the request is not valid JSON.');
}

/** Not HTTP at all, or HTTP that nobody speaks by accident. */
export function badRequest(): HttpError {
  return new HttpError('bad-request', 'The request could not be read as HTTP.');
}

/** Answers a refused or failed request; `report` hears of faults of ours. */
export function sendError(
  error: FastifyError | HttpError,
  request: FastifyRequest,
  reply: FastifyReply,
  report: (error: unknown) => void,
): FastifyReply {
  const { status, code, message, about } = classify(error, report);
  reply.headers(securityHeaders(request.headers.host)).code(status).type('application/json');
  return reply.send({ error: { code, message, about } } satisfies ErrorResponse);
}

interface Refusal {
  readonly status: number;
  readonly code: string;
  readonly message: string;
  readonly about?: readonly string[] | undefined;
}

function classify(error: FastifyError | HttpError, report: (error: unknown) => void): Refusal {
  if (error instanceof HttpError) return error;
  const known = FASTIFY_REFUSALS[error.code];
  if (known) return known();
  // A SyntaxError with a status is the JSON parser's, for instance about a `__proto__` key.
  if (error instanceof SyntaxError && error.statusCode === 400) return badJson();
  if (error.statusCode !== undefined && error.statusCode < 500) return badRequest();
  if (OWN_CODE.test(error.code ?? '')) {
    return { status: FAILED_WORLD_STATUS, code: error.code, message: error.message };
  }
  report(error);
  return new HttpError('internal', 'Something went wrong in the program. Trials already logged are safe.');
}
