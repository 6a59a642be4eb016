/**
 * The HTTP server. A request passes, in this order: node's limits (head, time, connections), the
 * Host and Origin check, the caller's rights, the rate limit, the body limit and the JSON parser, a
 * zod schema, and only then the program.
 */
import { createServer, type Server } from 'node:http';
import fastify from 'fastify';
import type { FastifyInstance, FastifyRequest, HTTPMethods } from 'fastify';
import { refuseRequest, takeAsNetwork } from './access.ts';
import { serveApi } from './api.ts';
import type { AppPort } from './app-port.ts';
import { HttpError } from './errors.ts';
import { securityHeaders } from './headers.ts';
import { RateLimit } from './rate-limit.ts';
import { refuseConnection } from './raw-refusals.ts';
import { callerOf, isAtLeast, leastRole, refusalFor, type Caller } from './rights.ts';
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

declare module 'fastify' {
  interface FastifyRequest {
    caller: Caller;
  }
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
  http.decorateRequest('caller');
  http.addHook('onRequest', async (request, reply) => {
    admit(request, app, rate);
    // The bench's page is of use at the bench alone: a phone that asks for it is shown its own.
    const isLost = request.routeOptions.url === '/' && request.caller.role !== 'bench';
    return isLost ? reply.redirect('/follow') : undefined;
  });
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

/**
 * A server of its own for the network, with the same routes and limits: what comes in there is
 * taken as from afar, and can't use up the bench's connections.
 */
export function networkServer(http: FastifyInstance, limits: HttpLimits = HTTP_LIMITS): Server {
  const server = createServer(
    {
      maxHeaderSize: limits.head_bytes,
      headersTimeout: limits.headTimeout_ms,
      requestTimeout: limits.requestTimeout_ms,
      keepAliveTimeout: limits.keepAlive_ms,
      connectionsCheckingInterval: limits.timeoutCheck_ms,
    },
    (request, response) => http.routing(request, response),
  );
  server.setTimeout(limits.idleTimeout_ms);
  server.maxConnections = limits.connections;
  server.maxHeadersCount = limits.headerCount;
  server.on('clientError', refuseConnection);
  takeAsNetwork(server);
  return server;
}

function admit(request: FastifyRequest, app: AppPort, rate: RateLimit): void {
  const refusal = refuseRequest(request.raw);
  if (refusal) throw refusal;
  request.caller = callerOf(request.raw, app.network.holderOf);
  const { url } = request.routeOptions;
  const least = url === undefined ? 'viewer' : leastRole(request.method, url);
  if (!isAtLeast(request.caller.role, least)) throw refusalFor(request.caller);
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
