/** A real server on loopback with a program behind it that only remembers, and plain clients. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { request } from 'node:http';
import type { IncomingHttpHeaders, OutgoingHttpHeaders } from 'node:http';
import { connect } from 'node:net';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { FastifyInstance } from 'fastify';
import { budgetOf } from '#core/experiment/budget/budget.ts';
import { coefficientOfTrial } from '#core/experiment/budget/coefficient-of-trial.ts';
import type { BudgetResponse, PlateauView, SessionsResponse, Status, TrialView } from '#core/live-messages.ts';
import type { Board } from '#core/link.ts';
import type { AppPort } from '../../../server/routes/app-port.ts';
import { HttpError } from '../../../server/routes/errors.ts';
import { HTTP_LIMITS, buildHttp, networkServer } from '../../../server/routes/http.ts';
import { NO_EXPERIMENT, type ExperimentView } from '#core/experiment/view.ts';
import type { HttpLimits } from '../../../server/routes/http.ts';
import type { Seen } from '#core/experiment/meant-for.ts';
import { createRoomNetwork, type RoomNetwork } from '../../../server/room-network.ts';
import { OWN_ADDRESS } from '../../support/own-address.ts';
import { DIVIDER_AND_SHUNT, ROTOR_AND_AIR } from '../../support/budgets.ts';
import { ATTACHED_BOARD, statusOf } from '../../support/status.ts';

export const STATUS = statusOf();

const VALUE = { value: 1.5, standardUncertainty: 0.01, degreesOfFreedom: 20 };

export function trialView(id: number): TrialView {
  return {
    id,
    recordingId: 1,
    revision: 1,
    state: 'logged',
    recorded: true,
    start_s: 10 * id,
    end_s: 10 * id + 5,
    declared_s: 10 * id + 2,
    sampleCount: 250,
    rotorStill: false,
    basis: 'settled',
    factors: { angle_deg: 15 },
    runId: null,
    voltage_V: VALUE,
    current_A: VALUE,
    power_W: VALUE,
    windSpeed_mps: null,
    rotorSpeed_radps: null,
    ripple: null,
    speed: null,
    powerCoefficient: null,
    origin: 'board',
    simulated: false,
    struck: false,
    strikeReason: null,
    note: null,
    correction: null,
    recordedAt: '2026-03-05T09:00:10Z',
    checksum: 'cbf43926',
  };
}

export const PLATEAU: PlateauView = {
  recordingId: 1,
  start_s: 10,
  end_s: 15,
  declared_s: 12,
  endReason: 'changed',
  sampleCount: 250,
  rotorStill: false,
  trialId: 1,
  power_W: VALUE,
};

/** One trial, one plateau, one board; it keeps what it was asked to do in `asked`. */
export class RememberingApp implements AppPort {
  readonly asked: unknown[] = [];
  /** The real one, once a server is there that it can open to the network. */
  network!: RoomNetwork;
  seen(): Seen {
    return { sessionId: STATUS.session.id, experiment: this.experiment(), newestTrialId: 1 };
  }

  status(): Status {
    return STATUS;
  }
  trials(): TrialView[] {
    return [trialView(1)];
  }
  budget(trialId: number): BudgetResponse {
    if (trialId !== 1) throw new HttpError('trial-unknown', `There is no trial ${trialId}.`);
    const budget = budgetOf(trialView(1), { id: 'rig', instrument: DIVIDER_AND_SHUNT });
    return { budget, check: null, coefficient: coefficientOfTrial(trialView(1), budget, ROTOR_AND_AIR), speed: { speed: null, noRipple: 'not heard', sampleRate_Hz: null } };
  }
  revisions(trialId: number): Promise<TrialView[]> {
    if (trialId === 1) return Promise.resolve([trialView(1)]);
    return Promise.reject(new HttpError('trial-unknown', `There is no trial ${trialId}.`));
  }
  plateaus(): PlateauView[] {
    return [PLATEAU];
  }
  boards(): Promise<Board[]> {
    return Promise.resolve([ATTACHED_BOARD]);
  }
  sessions(): Promise<SessionsResponse['sessions']> {
    const { id, name, startedAt } = STATUS.session;
    return Promise.resolve([{ id, name, startedAt, origin: 'board', question: null }]);
  }
  planOf(): Promise<null> {
    return Promise.resolve(null);
  }
  session(request: Parameters<AppPort['session']>[0]): Promise<void> {
    this.asked.push(request);
    return Promise.resolve();
  }
  view: ExperimentView = NO_EXPERIMENT;
  saveSession(): Promise<never> {
    return Promise.reject(new HttpError('session-unknown', 'That session is not in this data folder.'));
  }
  takeInSession(): Promise<never> {
    return Promise.reject(new HttpError('file-refused', 'The file is damaged.'));
  }
  experiment(): ExperimentView {
    return this.view;
  }
  command(command: Parameters<AppPort['command']>[0]): Promise<ExperimentView> {
    this.asked.push(command);
    return Promise.resolve(NO_EXPERIMENT);
  }
  act(action: Parameters<AppPort['act']>[0]): Promise<TrialView> {
    this.asked.push(action);
    if (action.trialId === 1) return Promise.resolve({ ...trialView(1), struck: true });
    return Promise.reject(new HttpError('trial-unknown', `There is no trial ${action.trialId}.`));
  }
  useLink(link: Parameters<AppPort['useLink']>[0]): Promise<void> {
    this.asked.push(link);
    return Promise.resolve();
  }
  wantOfBoard(wish: Parameters<AppPort['wantOfBoard']>[0]): Promise<void> {
    this.asked.push(wish);
    if (wish.want !== 'zero' || wish.sure) return Promise.resolve();
    return Promise.reject(new HttpError('zero-doubtful', 'The board reads current 152 mA.'));
  }
}

export interface TestServer {
  readonly port: number;
  readonly http: FastifyInstance;
  readonly app: RememberingApp;
  /** Faults of ours that were reported. */
  readonly reported: unknown[];
  close(): Promise<void>;
}

export const PAGE_FILES = {
  'index.html': '<!doctype html><title>bench</title>',
  'room.html': '<!doctype html><title>room</title>',
  'bench.js': 'document.title = "ready";',
  'bench.css': 'body { margin: 0 }',
  'mark.svg': '<svg xmlns="http://www.w3.org/2000/svg"/>',
  'notes.txt': 'not part of the page',
};

interface ServerOptions {
  readonly app?: RememberingApp;
  readonly host?: string;
  readonly limits?: Partial<HttpLimits>;
  readonly files?: Readonly<Record<string, string>>;
}

export async function startServer(options: ServerOptions = {}): Promise<TestServer> {
  const folder = mkdtempSync(join(tmpdir(), 'stillmark-web-'));
  for (const [name, text] of Object.entries(options.files ?? PAGE_FILES)) {
    writeFileSync(join(folder, name), text);
  }
  const app = options.app ?? new RememberingApp();
  const reported: unknown[] = [];
  const http = buildHttp(app, {
    webFolder: folder,
    report: (error) => reported.push(error),
    ...(options.limits && { limits: options.limits }),
  });
  const portNow = (): number => (http.server.address() as AddressInfo).port;
  app.network = createRoomNetwork({
    newServer: () => networkServer(http, { ...HTTP_LIMITS, ...options.limits }),
    port: portNow,
    addresses: () => [OWN_ADDRESS],
    changed: () => {},
  });
  await http.listen({ host: options.host ?? '127.0.0.1', port: 0 });
  const close = async (): Promise<void> => {
    await app.network.close();
    await http.close();
    rmSync(folder, { recursive: true });
  };
  return { port: portNow(), http, app, reported, close };
}

export interface Answer {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly text: string;
}

interface Question {
  readonly method?: string;
  readonly path?: string;
  readonly headers?: OutgoingHttpHeaders;
  readonly body?: string;
  /** Address to connect to. */
  readonly host?: string;
}

/** One request on a connection of its own; the path goes out as it is written. */
export function ask(port: number, question: Question = {}): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const { method = 'GET', path = '/api/status', headers = {}, body, host = '127.0.0.1' } = question;
    const outgoing = request({ port, host, method, path, headers, agent: false }, (incoming) => {
      const chunks: Buffer[] = [];
      incoming.on('data', (chunk: Buffer) => chunks.push(chunk));
      incoming.on('end', () =>
        resolve({
          status: incoming.statusCode ?? 0,
          headers: incoming.headers,
          text: Buffer.concat(chunks).toString(),
        }),
      );
      incoming.on('error', reject);
    });
    outgoing.on('error', reject);
    outgoing.end(body);
  });
}

/** Posts JSON as the page does. */
export function post(port: number, path: string, body: unknown, headers: OutgoingHttpHeaders = {}): Promise<Answer> {
  return ask(port, {
    method: 'POST',
    path,
    headers: { 'content-type': 'application/json', ...headers },
    body: typeof body === 'string' ? body : JSON.stringify(body),
  });
}

/** Sends bytes as they are and resolves with all that comes back until the other side hangs up. */
export function askRaw(port: number, text: string): Promise<string> {
  return new Promise((resolve) => {
    const chunks: Buffer[] = [];
    const socket = connect(port, '127.0.0.1', () => socket.write(text));
    socket.on('data', (chunk) => chunks.push(chunk));
    socket.on('error', () => {});
    socket.on('close', () => resolve(Buffer.concat(chunks).toString()));
  });
}

/** Status line and code of the error in an answer that came over a bare socket. */
export function refusalOf(raw: string): { status: number; code: string } {
  const [head = '', body = ''] = raw.split('\r\n\r\n', 2);
  const status = Number(/^HTTP\/1\.1 (\d{3})/.exec(head)?.[1]);
  return { status, code: codeOf(body) };
}

export function codeOf(body: string): string {
  return (JSON.parse(body) as { error: { code: string } }).error.code;
}
