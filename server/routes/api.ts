import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import { CommandSchema } from '#core/experiment/command.ts';
import type { ExperimentView } from '#core/experiment/view.ts';
import {
  ActionRequestSchema,
  BoardRequestSchema,
  LinkRequestSchema,
  SessionRequestSchema,
} from '#core/live-messages.ts';
import type {
  BoardsResponse,
  PlateausResponse,
  SessionsResponse,
  Status,
  TrialResponse,
  TrialsResponse,
} from '#core/live-messages.ts';
import type { AppPort } from './app-port.ts';
import { parseWith } from './parse.ts';

/** No route takes a query yet; a misspelt or imagined one is refused rather than ignored. */
const NoQuerySchema = z.strictObject({});

/** Everything under `/api`: reading for every viewer, posting for the operator. */
export function serveApi(http: FastifyInstance, app: AppPort): void {
  http.addHook('preValidation', async (request) => {
    parseWith(NoQuerySchema, request.query);
  });

  http.get('/api/status', (): Status => app.status());
  http.get('/api/trials', (): TrialsResponse => ({ trials: app.trials() }));
  http.get('/api/plateaus', (): PlateausResponse => ({ plateaus: app.plateaus() }));
  http.get('/api/boards', async (): Promise<BoardsResponse> => ({ boards: await app.boards() }));

  http.post('/api/actions', async (request): Promise<TrialResponse> => {
    const trial = await app.act(parseWith(ActionRequestSchema, request.body));
    return { trial };
  });

  http.get('/api/sessions', async (): Promise<SessionsResponse> => {
    return { sessions: await app.sessions() };
  });
  http.post('/api/sessions', async (request, reply) => {
    await app.session(parseWith(SessionRequestSchema, request.body));
    return reply.code(204).send();
  });

  http.get('/api/experiment', (): ExperimentView => app.experiment());
  http.post('/api/experiment', (request): Promise<ExperimentView> => {
    return app.command(parseWith(CommandSchema, request.body));
  });

  http.post('/api/link', async (request, reply) => {
    await app.useLink(parseWith(LinkRequestSchema, request.body));
    return reply.code(204).send();
  });

  http.post('/api/board', async (request, reply) => {
    await app.wantOfBoard(parseWith(BoardRequestSchema, request.body));
    return reply.code(204).send();
  });
}
