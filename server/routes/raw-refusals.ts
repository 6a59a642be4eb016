/** Refusals below fastify: on a bare socket, before there is a request or beside it. */
import type { IncomingMessage } from 'node:http';
import { STATUS_CODES } from 'node:http';
import type { Duplex } from 'node:stream';
import type { ErrorResponse } from '#core/live-messages.ts';
import { refuseHandshake } from './access.ts';
import { HttpError } from './errors.ts';
import { securityHeaders } from './headers.ts';
import { badRequest } from './refusals.ts';

/** Whether a WebSocket handshake may go on; answers it when not. */
export function admitLive(request: IncomingMessage, socket: Duplex): boolean {
  const refusal = refuseHandshake(request);
  if (refusal) hangUp(socket, refusal);
  return refusal === null;
}

/** Answers a connection that brought no readable request, or not soon enough. */
export function refuseConnection(error: NodeJS.ErrnoException, socket: Duplex): void {
  if (error.code === 'ECONNRESET' || !socket.writable) socket.destroy();
  else hangUp(socket, connectionRefusal(error.code));
}

function connectionRefusal(code: string | undefined): HttpError {
  if (code === 'ERR_HTTP_REQUEST_TIMEOUT') {
    return new HttpError('request-too-slow', 'The request took too long to arrive. Try again.');
  }
  if (code === 'HPE_HEADER_OVERFLOW') {
    return new HttpError('head-too-large', 'The head of the request is too large: at most 16 KB.');
  }
  return badRequest();
}

function hangUp(socket: Duplex, { status, code, message }: HttpError): void {
  const body = JSON.stringify({ error: { code, message } } satisfies ErrorResponse);
  const headers = {
    ...securityHeaders(undefined),
    'content-type': 'application/json; charset=utf-8',
    'content-length': String(Buffer.byteLength(body)),
    connection: 'close',
  };
  const lines = Object.entries(headers).map(([name, value]) => `${name}: ${value}\r\n`);
  // The other side may be gone already; there is nobody to tell.
  socket.on('error', () => {});
  socket.once('finish', () => socket.destroy());
  socket.end(`HTTP/1.1 ${status} ${STATUS_CODES[status]}\r\n${lines.join('')}\r\n${body}`);
}
