/** Statuses as RFC 9110 (HTTP Semantics) and RFC 6585 (428, 429, 431) define them. */
import { connect } from 'node:net';
import { anglePlan } from '#core/experiment/plan/templates.ts';
import { ExperimentViewSchema, NO_EXPERIMENT } from '#core/experiment/view.ts';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  BoardsResponseSchema,
  BudgetResponseSchema,
  ErrorResponseSchema,
  PlateausResponseSchema,
  SessionsResponseSchema,
  StatusSchema,
  TrialResponseSchema,
  TrialsResponseSchema,
} from '#core/live-messages.ts';
import { PAGE_FILES, RememberingApp, ask, askRaw, codeOf, post, refusalOf, startServer } from './support.ts';
import type { Answer, TestServer } from './support.ts';

let server: TestServer;
beforeAll(async () => {
  server = await startServer();
});
afterAll(() => server.close());

/** Status, code and message of a refusal, which must have the API's error shape and headers. */
function refusal(answer: Answer): [number, string, string] {
  const { error } = ErrorResponseSchema.strict().parse(JSON.parse(answer.text));
  expect(answer.headers['content-type']).toMatch(/^application\/json/);
  expect(answer.headers['x-content-type-options']).toBe('nosniff');
  expect(answer.headers['cache-control']).toBe('no-store');
  return [answer.status, error.code, error.message];
}

describe('reading', () => {
  it.each([
    ['/api/status', StatusSchema],
    ['/api/trials', TrialsResponseSchema],
    ['/api/trials/1/revisions', TrialsResponseSchema],
    ['/api/plateaus', PlateausResponseSchema],
    ['/api/boards', BoardsResponseSchema],
    ['/api/experiment', ExperimentViewSchema],
    ['/api/sessions', SessionsResponseSchema],
  ])('%s answers what its schema says, nothing more', async (path, schema) => {
    const answer = await ask(server.port, { path });
    expect(answer.status).toBe(200);
    expect(answer.headers['content-type']).toMatch(/^application\/json/);
    expect(answer.headers['cache-control']).toBe('no-store');
    expect(schema.strict().parse(JSON.parse(answer.text))).toEqual(JSON.parse(answer.text));
  });

  it('refuses a query that nobody reads', async () => {
    const [status, code, message] = refusal(await ask(server.port, { path: '/api/trials?since=4' }));
    expect([status, code]).toEqual([400, 'bad-field']);
    expect(message).toContain('"since"');
  });

  it('answers HEAD with the head of GET', async () => {
    const answer = await ask(server.port, { method: 'HEAD', path: '/api/trials' });
    expect([answer.status, answer.text]).toEqual([200, '']);
  });
});

describe('the budget of a trial', () => {
  it('is answered whole', async () => {
    const answer = await ask(server.port, { path: '/api/trials/1/budget' });
    const { budget } = BudgetResponseSchema.parse(JSON.parse(answer.text));
    expect(budget?.rows.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12);
    expect(budget).toEqual(server.app.budget(1).budget);
  });

  it('of an unknown trial is refused, and so is what is no number', async () => {
    const unknown = await ask(server.port, { path: '/api/trials/99/budget' });
    expect(refusal(unknown)).toEqual([404, 'trial-unknown', 'There is no trial 99.']);
    expect(refusal(await ask(server.port, { path: '/api/trials/x/budget' })).slice(0, 2)).toEqual([400, 'bad-field']);
  });
});

describe('operating', () => {
  it('hands the action on as it was parsed and answers with the trial', async () => {
    const action = { kind: 'strike', trialId: 1, reason: 'the table was bumped' };
    const answer = await post(server.port, '/api/actions', action);
    expect(TrialResponseSchema.parse(JSON.parse(answer.text)).trial.struck).toBe(true);
    expect(server.app.asked.at(-1)).toEqual(action);
  });

  it('begins a session, and goes on in an earlier one', async () => {
    for (const request of [{ want: 'new', name: 'Red table' }, { want: 'earlier', id: 'a' }]) {
      expect((await post(server.port, '/api/sessions', request)).status).toBe(204);
      expect(server.app.asked.at(-1)).toEqual(request);
    }
    const nameless = await post(server.port, '/api/sessions', { want: 'new', name: ' ' });
    expect(refusal(nameless).slice(0, 2)).toEqual([400, 'bad-field']);
  });

  it('takes what is said of the experiment, and answers with where it stands then', async () => {
    const command = { say: 'skip', runId: 'r1 angle_deg=20' };
    const answer = await post(server.port, '/api/experiment', command);
    expect(answer.status).toBe(200);
    expect(ExperimentViewSchema.parse(JSON.parse(answer.text))).toEqual(NO_EXPERIMENT);
    expect(server.app.asked.at(-1)).toEqual(command);
  });

  it.each([
    [{ say: 'plan', plan: { question: 'Which?' } }, '"plan.factors"'],
    [{ say: 'plan' }, '"plan"'],
    [
      { say: 'plan', plan: { ...anglePlan(1), finishBy: '25:00' } },
      'The field "plan.finishBy" must be a time of day from "00:00" to "23:59".',
    ],
    [
      { say: 'plan', plan: { ...anglePlan(1), factors: [{ ...anglePlan(1).factors[0], key: 'à b' }] } },
      'The field "plan.factors.0.key" must be letters and digits',
    ],
    [{ say: 'skip' }, '"runId"'],
    [{ say: 'predict', level: '20°', votes: -1 }, '"votes"'],
    [{ say: 'begin' }, '"say"'],
  ])('refuses to be told %j of the experiment and names the field', async (body, named) => {
    const before = server.app.asked.length;
    const [status, code, message] = refusal(await post(server.port, '/api/experiment', body));
    expect([status, code]).toEqual([400, 'bad-field']);
    expect(message).toContain(named);
    expect(server.app.asked.length).toBe(before);
  });

  it('takes up another link', async () => {
    const answer = await post(server.port, '/api/link', { use: 'board', id: 'usb:1a2b:3c4d:77' });
    expect([answer.status, answer.text]).toEqual([204, '']);
    expect(server.app.asked.at(-1)).toEqual({ use: 'board', id: 'usb:1a2b:3c4d:77' });
  });

  it('hands on what is wanted of the board, and what is refused of it', async () => {
    const rate = { want: 'rate', sampleRate_Hz: 50 };
    expect((await post(server.port, '/api/board', rate)).status).toBe(204);
    expect(server.app.asked.at(-1)).toEqual(rate);
    const stated = { kind: 'stated', gainUncertainty: 0.003, offsetUncertainty: null };
    const instrument = { want: 'instrument', current: stated, voltage: null };
    expect((await post(server.port, '/api/board', instrument)).status).toBe(204);
    expect(server.app.asked.at(-1)).toEqual(instrument);
    const zero = { want: 'zero', channel: 2, sure: false };
    const [status, code] = refusal(await post(server.port, '/api/board', zero));
    expect([status, code]).toEqual([409, 'zero-doubtful']);
    expect((await post(server.port, '/api/board', { ...zero, sure: true })).status).toBe(204);
  });

  it.each([
    [{ want: 'zero', channel: 0, sure: true }, '"channel"'],
    [{ want: 'zero', channel: 17, sure: true }, '"channel"'],
    [{ want: 'zero', channel: 2 }, '"sure"'],
    [{ want: 'rate', sampleRate_Hz: 0 }, '"sampleRate_Hz"'],
    [{ want: 'rate', sampleRate_Hz: null }, '"sampleRate_Hz"'],
    [{ want: 'instrument', voltage: { kind: 'shunt' } }, '"voltage.kind"'],
    [{ want: 'instrument', voltage: { kind: 'stated', gainUncertainty: -1 } }, '"voltage.gainUncertainty"'],
    [{ want: 'reset' }, '"want"'],
  ])('refuses to want %j of the board and names the field', async (body, named) => {
    const before = server.app.asked.length;
    const [status, code, message] = refusal(await post(server.port, '/api/board', body));
    expect([status, code]).toEqual([400, 'bad-field']);
    expect(message).toContain(named);
    expect(server.app.asked.length).toBe(before);
  });

  it('passes on what the program refuses', async () => {
    const answer = await post(server.port, '/api/actions', { kind: 'restore', trialId: 99 });
    expect(refusal(answer)).toEqual([404, 'trial-unknown', 'There is no trial 99.']);
  });

  it.each([
    [{ kind: 'strike', trialId: '1', reason: '' }, 'The field "trialId" must be a number.'],
    [{ kind: 'strike', trialId: null, reason: '' }, '"trialId"'],
    [{ kind: 'strike', trialId: 1.5, reason: '' }, 'The field "trialId" must be a whole number.'],
    [{ kind: 'strike', trialId: 0, reason: '' }, 'The field "trialId" must be more than 0.'],
    [{ kind: 'strike', reason: '' }, 'The field "trialId" is missing: it must be a number.'],
    [
      { kind: 'strike', trialId: 1, reason: 'x'.repeat(201) },
      'The field "reason" must have at most 200 characters.',
    ],
    [{ kind: 'strike', trialId: 1, reson: 'bumped', reason: '' }, '"reson"'],
    [{ kind: 'erase', trialId: 1 }, 'The field "kind" must be "strike" or "restore" or "note" or "move".'],
    [{}, '"kind"'],
    [[], 'The request'],
    [null, 'The request'],
    ['"strike"', 'The request'],
  ])('refuses %j and names the field', async (body, named) => {
    const before = server.app.asked.length;
    const [status, code, message] = refusal(await post(server.port, '/api/actions', body));
    expect([status, code]).toEqual([400, 'bad-field']);
    expect(message).toContain(named);
    expect(server.app.asked.length).toBe(before);
  });

  it.each(['{"kind":', '', '{"__proto__":{"kind":"restore"},"trialId":1}', "{kind:'restore'}", 'NaN'])(
    'refuses what is not JSON: %s',
    async (body) => {
      const [status, code] = refusal(await post(server.port, '/api/actions', body));
      expect([status, code]).toEqual([400, 'bad-json']);
    },
  );

  it.each(['text/plain', 'application/x-www-form-urlencoded', 'multipart/form-data; boundary=x', 'application/xml'])(
    'takes JSON only, so that no form of another site can post: %s',
    async (type) => {
      const answer = await post(server.port, '/api/link', '{"use":"simulated"}', { 'content-type': type });
      expect(refusal(answer).slice(0, 2)).toEqual([415, 'json-only']);
    },
  );

  it('refuses a body without a type, and no body at all', async () => {
    const headers = { 'content-length': 19 };
    const untyped = await ask(server.port, { method: 'POST', path: '/api/link', headers, body: '{"use":"simulated"}' });
    expect(refusal(untyped).slice(0, 2)).toEqual([415, 'json-only']);
    const empty = await ask(server.port, { method: 'POST', path: '/api/link' });
    expect(refusal(empty).slice(0, 2)).toEqual([400, 'bad-field']);
  });
});

describe('what is not there', () => {
  it.each([
    '/nothing',
    '/api',
    '/api/',
    '/api/trials/1',
    '/API/status',
    '/notes.txt',
    '/index.html',
    '/room.html',
    '/bench.js/',
    '//bench.js',
    '/../package.json',
    '/..%2fpackage.json',
    '/%2e%2e/package.json',
    '/..\\package.json',
    '/....//package.json',
    '/bench.js%00.html',
    '/./../../etc/passwd',
    '/file:///etc/passwd',
    '/constructor',
    '/__proto__',
  ])('%s is not found', async (path) => {
    expect(refusal(await ask(server.port, { path })).slice(0, 2)).toEqual([404, 'not-found']);
  });

  it('an address that is no text is refused', async () => {
    expect(refusal(await ask(server.port, { path: '/%zz' })).slice(0, 2)).toEqual([400, 'bad-request']);
  });

  it.each([
    ['POST', '/api/status', 'GET, HEAD'],
    ['DELETE', '/api/trials', 'GET, HEAD'],
    ['GET', '/api/actions', 'POST'],
    ['PUT', '/api/link', 'POST'],
    ['POST', '/', 'GET, HEAD'],
    ['OPTIONS', '/api/link', 'POST'],
    ['PATCH', '/bench.js?x=1', 'GET, HEAD'],
    ['PROPFIND', '/api/status', 'GET, HEAD'],
  ])('%s %s is the wrong method', async (method, path, allow) => {
    const answer = await ask(server.port, { method, path });
    expect(refusal(answer).slice(0, 2)).toEqual([405, 'method-refused']);
    expect(answer.headers.allow).toBe(allow);
  });
});

describe('the page', () => {
  it.each([
    ['/', 'index.html', 'text/html; charset=utf-8'],
    ['/room', 'room.html', 'text/html; charset=utf-8'],
    ['/bench.js', 'bench.js', 'text/javascript; charset=utf-8'],
    ['/bench.css', 'bench.css', 'text/css; charset=utf-8'],
    ['/mark.svg', 'mark.svg', 'image/svg+xml'],
  ] as const)('%s is served from memory as what it is', async (path, name, type) => {
    const answer = await ask(server.port, { path });
    expect([answer.status, answer.text]).toEqual([200, PAGE_FILES[name]]);
    expect(answer.headers['content-type']).toBe(type);
    expect(answer.headers['cache-control']).toBe('no-cache');
  });

  it('is not sent again while it is the same', async () => {
    const first = await ask(server.port, { path: '/bench.js' });
    const etag = String(first.headers.etag);
    for (const known of [etag, `W/${etag}`, `"other", ${etag}`, '*']) {
      const again = await ask(server.port, { path: '/bench.js', headers: { 'if-none-match': known } });
      expect([again.status, again.text, again.headers.etag]).toEqual([304, '', etag]);
    }
    const changed = await ask(server.port, { path: '/bench.js', headers: { 'if-none-match': '"other"' } });
    expect(changed.status).toBe(200);
    expect((await ask(server.port, { path: '/bench.css' })).headers.etag).not.toBe(etag);
  });

  it('says what to do when it is not built', async () => {
    const bare = await startServer({ files: {} });
    const [status, code, message] = refusal(await ask(bare.port, { path: '/' }));
    expect([status, code]).toEqual([503, 'page-not-built']);
    expect(message).toContain('npm run build');
    expect((await ask(bare.port)).status).toBe(200);
    await bare.close();
  });
});

/** Directives as Content Security Policy Level 3 (W3C) defines them. */
describe('headers on every answer', () => {
  it.each(['/', '/api/status', '/nothing', '/%zz'])('%s', async (path) => {
    const { headers } = await ask(server.port, { path });
    const policy = String(headers['content-security-policy']).split('; ');
    expect(policy[0]).toBe("default-src 'none'");
    expect(policy).toContain(`connect-src 'self' ws://127.0.0.1:${server.port}`);
    for (const kind of ['script', 'style', 'img', 'font']) expect(policy).toContain(`${kind}-src 'self'`);
    for (const kind of ['frame-ancestors', 'base-uri', 'form-action']) expect(policy).toContain(`${kind} 'none'`);
    expect(policy.join()).not.toContain('unsafe');
    expect(headers['referrer-policy']).toBe('no-referrer');
    expect(headers['x-content-type-options']).toBe('nosniff');
    expect(headers['cross-origin-resource-policy']).toBe('same-origin');
    expect(headers['strict-transport-security']).toBeUndefined();
    expect(headers['access-control-allow-origin']).toBeUndefined();
    expect(headers['server'] ?? headers['x-powered-by']).toBeUndefined();
  });
});

describe('limits', () => {
  it('a body of 64 KB is read, one byte more is not', async () => {
    const padded = (bytes: number): string => '{"use":"simulated"}'.padEnd(bytes);
    expect((await post(server.port, '/api/link', padded(65_536))).status).toBe(204);
    expect(refusal(await post(server.port, '/api/link', padded(65_537))).slice(0, 2)).toEqual([413, 'body-too-large']);
  });

  it('a table of trials may have 1 MB', async () => {
    const said = (bytes: number): string => '{"say":"wait"}'.padEnd(bytes);
    expect((await post(server.port, '/api/experiment', said(1_048_576))).status).toBe(200);
    const over = await post(server.port, '/api/experiment', said(1_048_577));
    expect(refusal(over).slice(0, 2)).toEqual([413, 'body-too-large']);
  });

  it('a body of 1 MB is refused, with its length announced or not', async () => {
    const head = `POST /api/link HTTP/1.1\r\nhost: 127.0.0.1:${server.port}\r\ncontent-type: application/json\r\n`;
    const announced = await askRaw(server.port, `${head}content-length: 1048576\r\n\r\n${'x'.repeat(1_048_576)}`);
    expect(refusalOf(announced)).toEqual({ status: 413, code: 'body-too-large' });
    const chunk = `10000\r\n${'x'.repeat(65_536)}\r\n`;
    const inChunks = await askRaw(server.port, `${head}transfer-encoding: chunked\r\n\r\n${chunk.repeat(16)}0\r\n\r\n`);
    expect(refusalOf(inChunks)).toEqual({ status: 413, code: 'body-too-large' });
  });

  it('a head of more than 16 KB is refused', async () => {
    const host = `host: 127.0.0.1:${server.port}`;
    const raw = await askRaw(server.port, `GET / HTTP/1.1\r\n${host}\r\nx: ${'y'.repeat(20_000)}\r\n\r\n`);
    expect(refusalOf(raw)).toEqual({ status: 431, code: 'head-too-large' });
  });

  it('what is not HTTP is refused', async () => {
    for (const noise of ['hello?\r\n\r\n', '\u0016\u0003\u0001\u0002\u0000\u0001', 'GET / HTTP/9.9\r\n\r\n']) {
      expect(refusalOf(await askRaw(server.port, noise))).toEqual({ status: 400, code: 'bad-request' });
    }
  });

  it('a request with two lengths is refused (RFC 9112, 6.3: request smuggling)', async () => {
    const head = `POST /api/link HTTP/1.1\r\nhost: 127.0.0.1:${server.port}\r\ncontent-type: application/json\r\n`;
    const both = 'content-length: 4\r\ntransfer-encoding: chunked\r\n\r\n0\r\n\r\n';
    expect(refusalOf(await askRaw(server.port, head + both))).toEqual({ status: 400, code: 'bad-request' });
  });

  it('too many requests are refused until the address has waited', async () => {
    const strict = await startServer({ limits: { requests: { burst: 3, perSecond: 0.001 } } });
    const statuses = [];
    for (let i = 0; i < 5; i++) statuses.push((await ask(strict.port)).status);
    expect(statuses).toEqual([200, 200, 200, 429, 429]);
    expect(refusal(await ask(strict.port)).slice(0, 2)).toEqual([429, 'too-many-requests']);
    await strict.close();
  });

  it('a head or a body that only trickles in is cut off, and others are served meanwhile', async () => {
    const strict = await startServer({
      limits: { headTimeout_ms: 150, requestTimeout_ms: 300, timeoutCheck_ms: 20 },
    });
    const head = `POST /api/link HTTP/1.1\r\nhost: 127.0.0.1:${strict.port}\r\ncontent-type: application/json\r\n`;
    const slowHead = trickle(strict.port, head, 'x: 1\r\n');
    const slowBody = trickle(strict.port, `${head}content-length: 60000\r\n\r\n`, ' ');
    expect((await ask(strict.port)).status).toBe(200);
    expect(refusalOf(await slowHead)).toEqual({ status: 408, code: 'request-too-slow' });
    expect(refusalOf(await slowBody)).toEqual({ status: 408, code: 'request-too-slow' });
    await strict.close();
  });

  it('an idle connection is closed', async () => {
    const strict = await startServer({ limits: { idleTimeout_ms: 100 } });
    expect(await askRaw(strict.port, '')).toBe('');
    await strict.close();
  });

  it('connections beyond the limit are dropped and the others served', async () => {
    const strict = await startServer({ limits: { connections: 2 } });
    const held = [connect(strict.port, '127.0.0.1'), connect(strict.port, '127.0.0.1')];
    await Promise.all(held.map((socket) => new Promise((resolve) => socket.once('connect', resolve))));
    expect(await askRaw(strict.port, '')).toBe('');
    for (const socket of held) socket.destroy();
    await expect.poll(async () => (await ask(strict.port).catch(() => null))?.status).toBe(200);
    await strict.close();
  });
});

/** Sends the beginning at once and then the same bytes again and again, never finishing. */
async function trickle(port: number, beginning: string, drop: string): Promise<string> {
  return new Promise((resolve) => {
    const chunks: Buffer[] = [];
    let timer: NodeJS.Timeout | undefined;
    // A busy computer takes a while to connect: what is written before would come before the rest.
    const socket = connect(port, '127.0.0.1', () => {
      socket.write(beginning);
      timer = setInterval(() => socket.write(drop), 10);
    });
    socket.on('data', (chunk) => chunks.push(chunk));
    socket.on('error', () => {});
    socket.on('close', () => {
      clearInterval(timer);
      resolve(Buffer.concat(chunks).toString());
    });
  });
}

describe('when something fails', () => {
  class FailingApp extends RememberingApp {
    error: Error = new Error('cannot read property of secret-path');
    override boards(): Promise<never> {
      return Promise.reject(this.error);
    }
  }

  it('a fault of ours is reported, not shown', async () => {
    const app = new FailingApp();
    const failing = await startServer({ app });
    const answer = await ask(failing.port, { path: '/api/boards' });
    expect(refusal(answer).slice(0, 2)).toEqual([500, 'internal']);
    expect(answer.text).not.toContain('secret');
    expect(failing.reported).toEqual([app.error]);
    await failing.close();
  });

  it('a failed world keeps its code and sentence', async () => {
    const app = new FailingApp();
    app.error = Object.assign(new Error('The disk is full. Make room.'), { code: 'disk-full' });
    const failing = await startServer({ app });
    const answer = await ask(failing.port, { path: '/api/boards' });
    expect(refusal(answer)).toEqual([503, 'disk-full', 'The disk is full. Make room.']);
    app.error = Object.assign(new Error('EACCES: permission denied, /home/x'), { code: 'EACCES' });
    expect(codeOf((await ask(failing.port, { path: '/api/boards' })).text)).toBe('internal');
    await failing.close();
  });
});
