/**
 * The room's network: opened and closed at the bench, who may do what over it, and passes. The
 * attacks are those of OWASP's cheat sheets on cross-site request forgery and on authentication
 * (bounded tries, secrets from a cryptographic source, used once).
 */
import { readFileSync, readdirSync } from 'node:fs';
import { connect } from 'node:net';
import { join } from 'node:path';
import { once } from 'node:events';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { meantFor } from '#core/experiment/meant-for.ts';
import { NO_EXPERIMENT, type ExperimentView } from '#core/experiment/view.ts';
import { HeldSchema, NetworkSchema, PassesResponseSchema, type Offer, type Role } from '#core/network.ts';
import { CODE_TRIES, MOST_PASSES } from '../../../server/network/passes.ts';
import { LEAST_ROLE } from '../../../server/routes/rights.ts';
import { OWN_ADDRESS } from '../../support/own-address.ts';
import { ask, codeOf, post, startServer, type Answer, type TestServer } from './support.ts';

const AFAR = OWN_ADDRESS.address;

let server: TestServer;
beforeEach(async () => {
  server = await startServer();
});
afterEach(() => server.close());

const setDoor = (want: 'open' | 'close', address = AFAR): Promise<Answer> =>
  post(server.port, '/api/network', { want, address });

/** As a phone does it: over the network, at the address that was opened. */
function fromPhone(path: string, body?: unknown, headers: Record<string, string> = {}): Promise<Answer> {
  return ask(server.port, {
    host: AFAR,
    path,
    method: body === undefined ? 'GET' : 'POST',
    headers: {
      host: `${AFAR}:${server.port}`,
      ...(body !== undefined && { 'content-type': 'application/json' }),
      ...headers,
    },
    ...(body !== undefined && { body: JSON.stringify(body) }),
  });
}

async function makePass(name = 'Table 2'): Promise<Offer> {
  const { text } = await post(server.port, '/api/passes', { want: 'offer', name });
  const { offer } = PassesResponseSchema.parse(JSON.parse(text));
  if (offer === null) throw new Error('no offer');
  return offer;
}

/** The header that an operator's phone sends. */
async function becomeOperator(): Promise<Record<string, string>> {
  const { secret } = await makePass();
  const { text } = await fromPhone('/api/pass', { want: 'take', secret });
  return { authorization: `Bearer ${HeldSchema.parse(JSON.parse(text)).credential}` };
}

const outcome = ({ status, text }: Answer): string | number => (status < 400 ? status : codeOf(text));

describe('the door', () => {
  it('is shut until the bench opens it, and after the bench shuts it', async () => {
    await expect(fromPhone('/api/status')).rejects.toMatchObject({ code: 'ECONNREFUSED' });
    const opened = NetworkSchema.parse(JSON.parse((await setDoor('open')).text));
    expect(opened).toMatchObject({ port: server.port, doors: [{ address: AFAR, isOpen: true }] });
    expect((await fromPhone('/api/status')).status).toBe(200);
    await setDoor('close');
    await expect(fromPhone('/api/status')).rejects.toMatchObject({ code: 'ECONNREFUSED' });
    expect((await ask(server.port)).status).toBe(200);
  });

  it('drops every connection when it is shut, and counts devices while it is open', async () => {
    await setDoor('open');
    const held = connect(server.port, AFAR);
    await once(held, 'connect');
    const gone = once(held, 'close');
    await expect
      .poll(() => server.app.network.view().doors.map(({ devices }) => devices))
      .toEqual([1]);
    await setDoor('close');
    await gone;
  });

  it('opens no address that is not listed', async () => {
    for (const address of ['0.0.0.0', '127.0.0.1', '::', '192.0.2.77', 'localhost', '']) {
      expect(outcome(await setDoor('open', address))).toBe('door-refused');
    }
    expect(server.app.network.view().doors.map(({ isOpen }) => isOpen)).toEqual([false]);
  });

  it('is opened, shut and seen from the bench alone', async () => {
    await setDoor('open');
    for (const headers of [{}, await becomeOperator()]) {
      expect((await fromPhone('/api/network', undefined, headers)).status).toBe(403);
      expect((await fromPhone('/api/network', { want: 'close', address: AFAR }, headers)).status).toBe(403);
      expect((await fromPhone('/api/passes', { want: 'offer', name: 'x' }, headers)).status).toBe(403);
    }
  });

  it('takes no other name for itself than its address, and no other page', async () => {
    await setDoor('open');
    const at = async (host: string) => outcome(await fromPhone('/api/status', undefined, { host }));
    const { port } = server;
    expect(await at(`${AFAR}:${port}`)).toBe(200);
    const foreign = ['rebound.example', 'localhost', '127.0.0.1', '[::1]', '203.0.113.9'];
    for (const name of foreign) expect(await at(`${name}:${port}`)).toBe('host-refused');
    expect(await at(AFAR)).toBe('host-refused');
    const from = async (origin: string) =>
      outcome(await fromPhone('/api/pass', { want: 'give-back' }, { origin }));
    expect(await from(`http://${AFAR}:${port}`)).toBe(204);
    expect(await from('http://rebound.example')).toBe('origin-refused');
    expect(await from(`http://127.0.0.1:${port}`)).toBe('origin-refused');
    expect(await from('null')).toBe('origin-refused');
  });

  it('keeps the limits of the bench: head, body, connections', async () => {
    await server.close();
    server = await startServer({ limits: { connections: 2 } });
    await setDoor('open');
    const long = { 'x-long': 'y'.repeat(20_000) };
    expect(outcome(await fromPhone('/api/status', undefined, long))).toBe('head-too-large');
    const large = { want: 'take', secret: 'x'.repeat(70_000) };
    expect(outcome(await fromPhone('/api/pass', large))).toBe('body-too-large');
    const crowd = [0, 1].map(() => connect(server.port, AFAR));
    await Promise.all(crowd.map((socket) => once(socket, 'connect')));
    await expect(fromPhone('/api/status')).rejects.toThrow();
    // Whoever fills the door, the bench has its own.
    expect((await ask(server.port)).status).toBe(200);
    for (const socket of crowd) socket.destroy();
  });

  it('shows a phone that asks for the bench the phones\u2019 page', async () => {
    await setDoor('open');
    const answer = await fromPhone('/');
    expect([answer.status, answer.headers.location]).toEqual([302, '/follow']);
    expect((await ask(server.port, { path: '/' })).status).toBe(200);
  });
});

/** A good request for each route: body, or none for a GET. */
const REQUESTS: Readonly<Record<string, unknown>> = {
  'POST /api/pass': { want: 'give-back' },
  'POST /api/experiment': { say: 'wait' },
  'POST /api/actions': { kind: 'strike', trialId: 1, reason: 'bumped' },
  'POST /api/sessions': { want: 'new', name: 'Red table' },
  'POST /api/link': { use: 'simulated' },
  'POST /api/board': { want: 'rate', sampleRate_Hz: 50 },
  'POST /api/network': { want: 'open', address: AFAR },
  'POST /api/passes': { want: 'offer', name: 'Table 3' },
};

/** Who may ask for what; the column is the least role. */
const TABLE: readonly (readonly [string, Role])[] = [
  ['GET /api/me', 'viewer'],
  ['GET /api/status', 'viewer'],
  ['GET /api/trials', 'viewer'],
  ['GET /api/trials/1/budget', 'viewer'],
  ['GET /api/trials/1/revisions', 'viewer'],
  ['GET /api/plateaus', 'viewer'],
  ['GET /api/experiment', 'viewer'],
  ['GET /room', 'viewer'],
  ['GET /bench.js', 'viewer'],
  ['POST /api/pass', 'viewer'],
  ['POST /api/experiment', 'operator'],
  ['POST /api/actions', 'operator'],
  ['GET /api/boards', 'bench'],
  ['GET /api/sessions', 'bench'],
  ['GET /api/sessions/2031-03-04-0a1b2c/plan', 'bench'],
  ['GET /api/network', 'bench'],
  ['POST /api/sessions', 'bench'],
  ['POST /api/link', 'bench'],
  ['POST /api/board', 'bench'],
  ['POST /api/network', 'bench'],
  ['POST /api/passes', 'bench'],
];

describe('rights', () => {
  it.each(TABLE)('%s wants at least: %s', async (route, least) => {
    await setDoor('open');
    const [method, path = ''] = route.split(' ');
    const body = method === 'POST' ? (REQUESTS[route] ?? {}) : undefined;
    const operator = await becomeOperator();
    const viewed = outcome(await fromPhone(path, body));
    const operated = outcome(await fromPhone(path, body, operator));
    const atBench =
      body === undefined ? await ask(server.port, { path }) : await post(server.port, path, body);
    expect(atBench.status).toBeLessThan(300);
    if (least === 'viewer') expect(viewed).toBeLessThan(300);
    else expect(viewed).toBe('viewers-only');
    if (least === 'bench') expect(operated).toBe('bench-only');
    else expect(operated).toBeLessThan(300);
  });

  it('are decided for every route that there is', () => {
    const folder = join(import.meta.dirname, '../../../server/routes');
    const source = readdirSync(folder).map((name) => readFileSync(join(folder, name), 'utf8')).join();
    const paths = [...source.matchAll(/http\.(get|post|put|delete|patch)\('(\/api[^']+)'/g)].map(
      ([, method = '', path]) => `${method.toUpperCase()} ${path}`,
    );
    expect(paths.length).toBeGreaterThan(10);
    expect(paths.filter((route) => LEAST_ROLE[route] === undefined)).toEqual([]);
  });

  it('keep plan and votes at the bench, and what would take them back', async () => {
    await setDoor('open');
    const operator = await becomeOperator();
    const say = async (command: unknown) => outcome(await fromPhone('/api/experiment', command, operator));
    expect(await say({ say: 'plan', plan: null })).toBe('bench-only');
    expect(await say({ say: 'predict', level: '25°', votes: 3 })).toBe('bench-only');
    for (const one of ['is-set', 'log-now', 'average', 'leave-it', 'wait', 'go-on', 'cover', 'reveal']) {
      expect(await say({ say: one })).toBe(200);
    }
    server.app.view = { ...NO_EXPERIMENT, undoes: { what: 'plan', trialId: null, place: 1 } };
    expect(await say({ say: 'undo' })).toBe('bench-only');
    server.app.view = { ...NO_EXPERIMENT, undoes: { what: 'strike', trialId: 1, place: 2 } };
    expect(await say({ say: 'undo' })).toBe(200);
  });
});

describe('a pass', () => {
  beforeEach(async () => {
    await setDoor('open');
  });

  it('makes one phone an operator, once, and the bench sees who', async () => {
    const { secret, id } = await makePass('Table 2');
    const first = await fromPhone('/api/pass', { want: 'take', secret });
    const { name, credential } = HeldSchema.parse(JSON.parse(first.text));
    expect(name).toBe('Table 2');
    const headers = { authorization: `Bearer ${credential}` };
    expect(JSON.parse((await fromPhone('/api/me', undefined, headers)).text)).toEqual({ role: 'operator', name });
    expect(outcome(await fromPhone('/api/pass', { want: 'take', secret }))).toBe('pass-unknown');
    expect(server.app.network.view().passes).toEqual([
      { id, name, state: 'held', heldBy: AFAR, expiresIn_s: null },
    ]);
  });

  it('taken back ends what the phone may do, and says so', async () => {
    const headers = await becomeOperator();
    const [pass] = server.app.network.view().passes;
    await post(server.port, '/api/passes', { want: 'take-back', id: pass?.id });
    expect(outcome(await fromPhone('/api/experiment', { say: 'log-now' }, headers))).toBe('pass-ended');
    expect(JSON.parse((await fromPhone('/api/me', undefined, headers)).text)).toEqual({ role: 'viewer', name: null });
    expect(server.app.asked).toEqual([]);
  });

  it('is over when the phone gives it back, and when the network is shut', async () => {
    const headers = await becomeOperator();
    expect((await fromPhone('/api/pass', { want: 'give-back' }, headers)).status).toBe(204);
    expect(outcome(await fromPhone('/api/experiment', { say: 'wait' }, headers))).toBe('pass-ended');
    const again = await becomeOperator();
    await setDoor('close');
    await setDoor('open');
    expect(outcome(await fromPhone('/api/experiment', { say: 'wait' }, again))).toBe('pass-ended');
  });

  it('is not to be guessed: after five wrong codes the right one is of no use, the secret still is', async () => {
    const { code, secret } = await makePass();
    const wrong = String((Number(code) + 1) % 1_000_000).padStart(6, '0');
    for (let i = 0; i < CODE_TRIES; i++) {
      expect(outcome(await fromPhone('/api/pass', { want: 'take', code: wrong }))).toBe('pass-unknown');
    }
    expect(outcome(await fromPhone('/api/pass', { want: 'take', code }))).toBe('pass-unknown');
    expect((await fromPhone('/api/pass', { want: 'take', secret })).status).toBe(200);
  });

  it('takes the code as it is read out, with a space', async () => {
    const { code } = await makePass();
    const typed = `${code.slice(0, 3)} ${code.slice(3)}`;
    expect((await fromPhone('/api/pass', { want: 'take', code: typed })).status).toBe(200);
  });

  it.each([
    ['nothing', {}],
    ['both', { want: 'take', code: '123456', secret: 'x' }],
    ['a number', { want: 'take', code: 123456 }],
  ])('refuses a claim with %s', async (_, claim) => {
    expect(outcome(await fromPhone('/api/pass', claim))).toBe('bad-field');
  });

  it('no more than six at once', async () => {
    for (let i = 0; i < MOST_PASSES; i++) await makePass(`Table ${i}`);
    const more = await post(server.port, '/api/passes', { want: 'offer', name: 'one more' });
    expect(outcome(more)).toBe('passes-full');
  });

  it('credentials that are none make nobody an operator', async () => {
    for (const authorization of ['Bearer', 'Bearer x', `Bearer ${'x'.repeat(22)}`, 'Basic eDp4', '']) {
      const answer = await fromPhone('/api/experiment', { say: 'log-now' }, { authorization });
      expect(answer.status).toBe(403);
    }
    expect(server.app.asked).toEqual([]);
  });
});

describe('what was meant for something that is over', () => {
  const question: ExperimentView = { ...NO_EXPERIMENT, question: { kind: 'unsettled', cause: 'cycle' } };
  const tag = (experiment: ExperimentView, command: Parameters<typeof meantFor>[1]): string =>
    `"${encodeURIComponent(meantFor({ sessionId: 's1', experiment, newestTrialId: 1 }, command))}"`;

  it('is refused, at the bench too; the same is done when it is still so', async () => {
    const average = { say: 'average' } as const;
    server.app.view = question;
    const headers = { 'if-match': tag(question, average) };
    expect((await post(server.port, '/api/experiment', average, headers)).status).toBe(200);
    server.app.view = NO_EXPERIMENT;
    const late = await post(server.port, '/api/experiment', average, headers);
    expect([late.status, codeOf(late.text)]).toEqual([412, 'command-stale']);
    expect(server.app.asked).toEqual([average]);
  });

  it('undo takes back what was seen, nothing before it', async () => {
    const undo = { say: 'undo' } as const;
    const two: ExperimentView = { ...NO_EXPERIMENT, undoes: { what: 'note', trialId: 1, place: 2 } };
    const one: ExperimentView = { ...NO_EXPERIMENT, undoes: { what: 'note', trialId: 1, place: 1 } };
    server.app.view = one;
    const late = await post(server.port, '/api/experiment', undo, { 'if-match': tag(two, undo) });
    expect(codeOf(late.text)).toBe('command-stale');
  });

  it('a strike is meant for a trial of this session', async () => {
    const strike = { kind: 'strike', trialId: 1, reason: '' } as const;
    const other = encodeURIComponent(
      meantFor({ sessionId: 's0', experiment: NO_EXPERIMENT, newestTrialId: 1 }, strike),
    );
    const late = await post(server.port, '/api/actions', strike, { 'if-match': `"${other}"` });
    expect(codeOf(late.text)).toBe('command-stale');
    const now = await post(server.port, '/api/actions', strike, { 'if-match': tag(NO_EXPERIMENT, strike) });
    expect(now.status).toBe(200);
  });
});
