/** What is kept of a session: its plan; all of it as a file, saved and taken in. */
import { createReadStream, statSync } from 'node:fs';
import { Readable } from 'node:stream';
import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import type { SessionPlanResponse, TakenInResponse } from '#core/live-messages.ts';
import type { AppPort } from './app-port.ts';
import { HttpError } from './errors.ts';
import { parseWith } from './parse.ts';

const SessionAddressSchema = z.strictObject({ id: z.string().max(60) });
const ZIP = 'application/zip';

/** In a context of its own: no other route takes anything but JSON. */
export function serveSessionFiles(http: FastifyInstance, app: AppPort): void {
  // As it comes: the whole of a file is never in memory.
  http.addContentTypeParser(ZIP, (_request, payload, done) => done(null, payload));

  http.get('/api/sessions/:id/plan', async (request): Promise<SessionPlanResponse> => {
    const { id } = parseWith(SessionAddressSchema, request.params);
    return { plan: await app.planOf(id) };
  });

  http.get('/api/sessions/:id/file', async (request, reply) => {
    // Nothing moves on the connection while the file is being written.
    request.raw.socket.setTimeout(0);
    const { id } = parseWith(SessionAddressSchema, request.params);
    const { path, name, remove } = await app.saveSession(id);
    const file = createReadStream(path);
    file.once('close', remove);
    reply.header('content-disposition', `attachment; filename="${name}"`);
    reply.header('content-length', statSync(path).size);
    return reply.type(ZIP).send(file);
  });

  http.post('/api/sessions/file', async (request): Promise<TakenInResponse> => {
    request.raw.socket.setTimeout(0);
    if (!(request.body instanceof Readable)) {
      throw new HttpError('file-refused', 'Send the file itself, as application/zip.', ['file-not-session']);
    }
    return app.takeInSession(request.body);
  });
}
