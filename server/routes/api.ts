import type { FastifyInstance, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { CommandSchema, type Command } from '#core/experiment/command.ts';
import { meantFor } from '#core/experiment/meant-for.ts';
import type { ExperimentView } from '#core/experiment/view.ts';
import {
  ActionRequestSchema,
  BoardRequestSchema,
  LinkRequestSchema,
  SessionRequestSchema,
} from '#core/live-messages.ts';
import type {
  ActionRequest,
  BoardsResponse,
  BudgetResponse,
  PlateausResponse,
  SessionsResponse,
  Status,
  TrialResponse,
  TrialsResponse,
} from '#core/live-messages.ts';
import type { AppPort } from './app-port.ts';
import { HttpError } from './errors.ts';
import { serveNetwork } from './network.ts';
import { parseWith } from './parse.ts';
import { mayAct, maySay, refusalFor } from './rights.ts';
import { serveSessionFiles } from './session-files.ts';

const TABLE_LIMIT_bytes = 1024 * 1024;

/** No route takes a query yet; a misspelt or imagined one is refused rather than ignored. */
const NoQuerySchema = z.strictObject({});
const TrialAddressSchema = z.strictObject({ id: z.coerce.number().int().positive() });

/** Everything under `/api`; who may ask for what is in rights.ts. */
export function serveApi(http: FastifyInstance, app: AppPort): void {
  http.addHook('preValidation', async (request) => {
    parseWith(NoQuerySchema, request.query);
  });

  serveNetwork(http, app.network);
  http.get('/api/status', (): Status => app.status());
  http.get('/api/trials', (): TrialsResponse => ({ trials: app.trials() }));
  http.get('/api/trials/:id/budget', (request): BudgetResponse => {
    return app.budget(parseWith(TrialAddressSchema, request.params).id);
  });
  http.get('/api/trials/:id/revisions', async (request): Promise<TrialsResponse> => {
    const { id } = parseWith(TrialAddressSchema, request.params);
    return { trials: await app.revisions(id) };
  });
  http.get('/api/plateaus', (): PlateausResponse => ({ plateaus: app.plateaus() }));
  http.get('/api/boards', async (): Promise<BoardsResponse> => ({ boards: await app.boards() }));

  http.post('/api/actions', async (request): Promise<TrialResponse> => {
    const action = parseWith(ActionRequestSchema, request.body);
    if (!mayAct(request.caller.role, action)) throw refusalFor(request.caller);
    refuseStale(request, app, action);
    return { trial: await app.act(action) };
  });

  http.get('/api/sessions', async (): Promise<SessionsResponse> => {
    return { sessions: await app.sessions() };
  });
  http.post('/api/sessions', async (request, reply) => {
    await app.session(parseWith(SessionRequestSchema, request.body));
    return reply.code(204).send();
  });

  http.register(async (files) => serveSessionFiles(files, app));

  http.get('/api/experiment', (): ExperimentView => app.experiment());
  // A table of trials is longer than anything else that is said.
  const bodyLimit = TABLE_LIMIT_bytes;
  http.post('/api/experiment', { bodyLimit }, async (request): Promise<ExperimentView> => {
    const command = parseWith(CommandSchema, request.body);
    if (!maySay(request.caller.role, command, app.experiment().undoes)) {
      throw refusalFor(request.caller);
    }
    refuseStale(request, app, command);
    return app.command(command);
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

/**
 * Refuses what was meant for something that is over. A page says what it was meant for in If-Match
 * (RFC 9110, 13.1.1); a program that does not is taken at its word.
 */
function refuseStale(request: FastifyRequest, app: AppPort, asked: Command | ActionRequest): void {
  const given = request.headers['if-match'];
  if (given === undefined || given === `"${encodeURIComponent(meantFor(app.seen(), asked))}"`) return;
  throw new HttpError('command-stale', 'Something changed just before, so nothing was done. Look, and press again if it is still wanted.');
}
