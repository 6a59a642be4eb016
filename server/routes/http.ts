/**
 * The HTTP server. A request passes, in this order: node's limits (head, time, connections), the
 * Host and Origin check, the operator check for anything that changes something, the rate limit,
 * the body limit and the JSON parser, a zod schema, and only then the program.
 */
import fastify from 'fastify';
import type { FastifyInstance, FastifyRequest, HTTPMethods } from 'fastify';
import { refuseOperating, refuseRequest } from './access.ts';
import { serveApi } from './api.ts';
import type { AppPort } from './app-port.ts';
import { HttpError } from './errors.ts';
import { securityHeaders } from './headers.ts';
import { RateLimit } from './rate-limit.ts';
import { refuseConnection } from './raw-refusals.ts';
import { sendError } from './refusals.ts';
import { serveWebFiles } from './web-files.ts';

export const HTTP_LIMITS = {
  body_bytes: 64 * 1024,
  head_bytes: 16 * 1024,
  headerCount: 100,
  /** From the first byte of a request to the end of its head, and to the end of its body. */
  headTimeout_ms: 10_000,
  requestTimeout_ms: 20_000,
  /** How often node looks for requests that are over time. */
  timeoutCheck_ms: 2_000,
  /** A connection on which nothing moves, a reader that does not read included. */
  idleTimeout_ms: 30_000,
  keepAlive_ms: 10_000,
  /** Room for 500 viewers and for their pages being loaded. */
  connections: 1_200,
  /** For each remote address. */
  requests: { burst: 300, perSecond: 100 },
};
export type HttpLimits = typeof HTTP_LIMITS;

export interface HttpOptions {
  /** Folder of the built page. */
  readonly webFolder: string;
  /** Hears of faults of ours: what was answered with 500. */
  readonly report: (error: unknown) => void;
  readonly limits?: Partial<HttpLimits>;
}

/** Builds the server without listening. The live feed attaches to its `server`. */
export function buildHttp(app: AppPort, options: HttpOptions): FastifyInstance {
  const limits = { ...HTTP_LIMITS, ...options.limits };
  const http = fastify({
    bodyLimit: limits.body_bytes,
    connectionTimeout: limits.idleTimeout_ms,
    requestTimeout: limits.requestTimeout_ms,
    keepAliveTimeout: limits.keepAlive_ms,
    forceCloseConnections: true,
    http: {
      maxHeaderSize: limits.head_bytes,
      headersTimeout: limits.headTimeout_ms,
      connectionsCheckingInterval: limits.timeoutCheck_ms,
    },
    clientErrorHandler: refuseConnection,
    frameworkErrors: (error, request, reply) => {
      void sendError(error, request, reply, options.report);
    },
  });
  http.server.maxConnections = limits.connections;
  http.server.maxHeadersCount = limits.headerCount;
  // Every body goes through zod; fastify's own validator would turn `null` into 0.
  http.setValidatorCompiler(() => () => true);
  http.removeContentTypeParser('text/plain');

  http.setErrorHandler((error: HttpError, request, reply) =>
    sendError(error, request, reply, options.report),
  );
  http.addHook('onRequest', async (request, reply) => {
    reply.headers(securityHeaders(request.headers.host));
  });
  const rate = new RateLimit(limits.requests);
  http.addHook('onRequest', async (request) => admit(request, rate));
  http.setNotFoundHandler((request, reply) => {
    const allowed = allowedMethods(http, request);
    if (allowed.length === 0) throw new HttpError('not-found', 'There is no such address here.');
    reply.header('allow', allowed.join(', '));
    throw new HttpError('method-refused', `This address takes ${allowed.join(' or ')} only.`);
  });

  serveWebFiles(http, options.webFolder);
  // In a context of its own, so that what holds for the API does not hold for the page's files.
  http.register(async (api) => serveApi(api, app));
  return http;
}

const READING_METHODS = ['GET', 'HEAD', 'OPTIONS'];

function admit(request: FastifyRequest, rate: RateLimit): void {
  const changes = !READING_METHODS.includes(request.method);
  const refusal = refuseRequest(request.raw) ?? (changes ? refuseOperating(request.raw) : null);
  if (refusal) throw refusal;
  if (!rate.take(request.ip, performance.now() / 1000)) {
    throw new HttpError('too-many-requests', 'Too many requests. Wait a second and try again.');
  }
}

/** The methods that the requested address does take. */
function allowedMethods(http: FastifyInstance, request: FastifyRequest): HTTPMethods[] {
  const url = request.url.split('?', 1)[0] ?? '/';
  const methods: HTTPMethods[] = ['GET', 'HEAD', 'POST'];
  return methods.filter((method) => http.hasRoute({ url, method }));
}
