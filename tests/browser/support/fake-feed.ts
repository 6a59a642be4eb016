/**
 * A stand-in for the program: serves the page as built, and plays scenes to it over the live feed.
 * Every message goes through the schemas, so that a scene can't show what the program can't say.
 */
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import { readdirSync, readFileSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { extname, join, resolve } from 'node:path';
import { WebSocketServer, type WebSocket } from 'ws';
import { LiveMessageSchema, type LiveMessage, type TrialView } from '#core/live-messages.ts';
import { securityHeaders } from '../../../server/routes/headers.ts';

const BUILT = resolve(import.meta.dirname, '../../../dist/web');
const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml',
};

export interface FakeFeed {
  readonly url: string;
  /** What a page that connects, or asks, is sent: a snapshot, and what follows on it. */
  show(...messages: LiveMessage[]): void;
  /** Sends to every page that is connected. */
  send(message: LiveMessage): void;
  /** Requests that pages have posted: path and body. */
  readonly posted: { path: string; body: unknown }[];
  /** The sentence to refuse the next requests with; null: they are accepted. */
  refuseWith: string | null;
  /** What is answered where a page asks how a trial came to what it is. */
  revisions: readonly TrialView[];
  /** Sends text as it stands, whatever it is. */
  sendRaw(text: string): void;
  /** Falls silent without closing anything; pages are left without news. */
  fallSilent(): void;
  /** Cuts every connection; pages may come back at once. */
  cut(): void;
  /** What pages have sent over the feed. */
  readonly asked: string[];
  close(): Promise<void>;
}

/** The pages' files by address, as the program serves them. */
function builtPages(): ReadonlyMap<string, Buffer> {
  const addressOf = (name: string): string =>
    name === 'index.html' ? '/' : `/${name.replace(/\.html$/, '')}`;
  return new Map(readdirSync(BUILT).map((name) => [addressOf(name), readFileSync(join(BUILT, name))]));
}

export async function startFakeFeed(): Promise<FakeFeed> {
  const files = builtPages();
  const posted: FakeFeed['posted'] = [];
  const asked: string[] = [];
  const sockets = new Set<WebSocket>();
  let picture: readonly string[] = [];
  let isSilent = false;

  const server = createServer((request, response) => {
    if (request.method === 'POST') void takePost(request, response);
    else if (/^\/api\/trials\/\d+\/revisions$/.test(request.url ?? '')) tellRevisions(response);
    else sendFile(files, request, response);
  });

  function tellRevisions(response: ServerResponse): void {
    response.writeHead(200, { 'content-type': 'application/json' });
    response.end(JSON.stringify({ trials: feed.revisions }));
  }

  async function takePost(request: IncomingMessage, response: ServerResponse): Promise<void> {
    const parts: Buffer[] = [];
    for await (const part of request) parts.push(part as Buffer);
    posted.push({ path: request.url ?? '', body: JSON.parse(Buffer.concat(parts).toString()) });
    const refusal = feed.refuseWith;
    const body = refusal === null ? {} : { error: { code: 'refused-in-test', message: refusal } };
    response.writeHead(refusal === null ? 200 : 409, { 'content-type': 'application/json' });
    response.end(JSON.stringify(body));
  }

  const live = new WebSocketServer({ server, path: '/live' });
  live.on('connection', (socket) => {
    sockets.add(socket);
    socket.on('close', () => sockets.delete(socket));
    const answer = (): void => {
      if (!isSilent) for (const text of picture) socket.send(text);
    };
    socket.on('message', (data: Buffer) => {
      asked.push(data.toString());
      answer();
    });
    answer();
  });

  const toText = (message: LiveMessage): string => JSON.stringify(LiveMessageSchema.parse(message));
  const sendRaw = (text: string): void => {
    if (!isSilent) for (const socket of sockets) socket.send(text);
  };
  const port = await listen(server);
  const feed: FakeFeed = {
    url: `http://127.0.0.1:${port}/`,
    posted,
    asked,
    refuseWith: null,
    revisions: [],
    show(...messages) {
      isSilent = false;
      picture = messages.map(toText);
      for (const socket of sockets) for (const text of picture) socket.send(text);
    },
    sendRaw,
    send: (message) => sendRaw(toText(message)),
    fallSilent() {
      isSilent = true;
    },
    cut() {
      for (const socket of sockets) socket.terminate();
    },
    async close() {
      for (const socket of sockets) socket.terminate();
      live.close();
      await new Promise((done) => server.close(done));
    },
  };
  return feed;
}

function sendFile(
  files: ReadonlyMap<string, Buffer>,
  request: IncomingMessage,
  response: ServerResponse,
): void {
  const path = request.url ?? '/';
  const body = files.get(path);
  const type = TYPES[extname(path) || '.html'] ?? 'text/plain';
  // The same content policy as the program's: what it forbids must not be needed.
  response.writeHead(body === undefined ? 404 : 200, {
    ...securityHeaders(request.headers.host),
    'content-type': type,
  });
  response.end(body);
}

async function listen(server: Server): Promise<number> {
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  return (server.address() as AddressInfo).port;
}
