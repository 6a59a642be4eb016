/**
 * The built page: a dozen files, read once at the start and served from memory, each at its own
 * route. No request ever reaches the file system, so no path can lead out of the folder.
 */
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { extname, join } from 'node:path';
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { HttpError } from './errors.ts';

/** What a page is made of; a file of any other kind is not served. */
const CONTENT_TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.ico': 'image/x-icon',
  '.woff2': 'font/woff2',
};

interface WebFile {
  readonly path: string;
  readonly type: string;
  readonly etag: string;
  readonly body: Buffer;
}

/** `index.html` is served at `/`, `room.html` at `/room`, other files at their names. */
export function serveWebFiles(http: FastifyInstance, folder: string): void {
  const files = loadWebFiles(folder);
  for (const file of files) http.get(file.path, (request, reply) => sendFile(file, request, reply));
  if (files.every((file) => file.path !== '/')) {
    http.get('/', () => {
      throw new HttpError('page-not-built', 'The page is not built. Run "npm run build", then start again.');
    });
  }
}

/** Files directly in the folder; no folders, no links. */
function loadWebFiles(folder: string): WebFile[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const type = CONTENT_TYPES[extname(entry.name)];
    if (!entry.isFile() || type === undefined) return [];
    const body = readFileSync(join(folder, entry.name));
    const etag = `"${createHash('sha256').update(body).digest('base64url')}"`;
    return [{ path: webPath(entry.name), type, etag, body }];
  });
}

function webPath(name: string): string {
  return name === 'index.html' ? '/' : `/${name.replace(/\.html$/, '')}`;
}

/** The browser may keep the file but must ask each time whether it is still the same. */
function sendFile(file: WebFile, request: FastifyRequest, reply: FastifyReply): FastifyReply {
  reply.headers({ etag: file.etag, 'cache-control': 'no-cache' });
  const known = (request.headers['if-none-match'] ?? '').split(',').map((tag) => tag.trim());
  if (known.some((tag) => tag === '*' || tag.replace(/^W\//, '') === file.etag)) {
    return reply.code(304).send();
  }
  return reply.type(file.type).send(file.body);
}
