/**
 * Host and Origin. The attacks are DNS rebinding and cross-site request forgery as OWASP describes
 * them (Cheat Sheet Series, "Cross-Site Request Forgery Prevention", check of the Origin header);
 * that browsers send `Origin: null` from sandboxed frames and files, and an Origin with every
 * WebSocket handshake, is in the Fetch Standard ("Append a request Origin header").
 */
import type { IncomingMessage } from 'node:http';
import { networkInterfaces } from 'node:os';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { isAtBench, refuseRequest } from '../../../server/routes/access.ts';
import { admitLive } from '../../../server/routes/raw-refusals.ts';
import { ask, askRaw, codeOf, post, refusalOf, startServer } from './support.ts';
import type { TestServer } from './support.ts';

let server: TestServer;
beforeAll(async () => {
  server = await startServer();
  server.http.server.on('upgrade', (request: IncomingMessage, socket) => {
    if (admitLive(request, socket)) socket.end('HTTP/1.1 101 Switching Protocols\r\n\r\n');
  });
});
afterAll(() => server.close());

function handshake(headers: Record<string, string>, path = '/live'): Promise<string> {
  const all = { host: `127.0.0.1:${server.port}`, connection: 'Upgrade', upgrade: 'websocket', ...headers };
  const lines = Object.entries(all).map(([name, value]) => `${name}: ${value}\r\n`);
  return askRaw(server.port, `GET ${path} HTTP/1.1\r\n${lines.join('')}\r\n`);
}

const OWN_HOSTS = [
  '127.0.0.1:PORT',
  'localhost:PORT',
  'LOCALHOST:PORT',
  'LocalHost.:PORT',
  'localhost.:PORT',
  '[::1]:PORT',
  '[0:0:0:0:0:0:0:1]:PORT',
  '[0000::0001]:PORT',
];

const FOREIGN_HOSTS = [
  'rebound.example:PORT',
  'localhost.rebound.example:PORT',
  '127.0.0.1.rebound.example:PORT',
  'localhost',
  '127.0.0.1',
  'localhost:1',
  'localhost:PORT0',
  '0.0.0.0:PORT',
  '192.0.2.7:PORT',
  '2130706433:PORT',
  '0x7f.1:PORT',
  '[::1:PORT',
  '[::2]:PORT',
  '[:::]:PORT',
  'someone@127.0.0.1:PORT',
  '127.0.0.1:PORT/x',
  '127.0.0.1:PORT, rebound.example',
  'localhost..:PORT',
  ' ',
];

const withPort = (text: string): string => text.replace('PORT', String(server.port));

describe('the Host header', () => {
  it.each(OWN_HOSTS)('is this computer: %s', async (host) => {
    expect((await ask(server.port, { headers: { host: withPort(host) } })).status).toBe(200);
    expect(await handshake({ host: withPort(host) })).toContain('101 Switching Protocols');
  });

  it.each(FOREIGN_HOSTS)('is refused: %s', async (host) => {
    const headers = { host: withPort(host) };
    for (const path of ['/', '/api/status', '/nothing-here']) {
      const answer = await ask(server.port, { path, headers });
      expect([answer.status, codeOf(answer.text)]).toEqual([403, 'host-refused']);
    }
    const posted = await post(server.port, '/api/link', { use: 'simulated' }, headers);
    expect([posted.status, codeOf(posted.text)]).toEqual([403, 'host-refused']);
    expect(refusalOf(await handshake(headers))).toEqual({ status: 403, code: 'host-refused' });
    expect(server.app.asked).toEqual([]);
  });

  it('is refused when it is missing', async () => {
    expect(await askRaw(server.port, 'GET /api/status HTTP/1.1\r\n\r\n')).toMatch(/^HTTP\/1.1 400 /);
    const old = await askRaw(server.port, 'GET /api/status HTTP/1.0\r\n\r\n');
    expect(refusalOf(old)).toEqual({ status: 403, code: 'host-refused' });
  });

  it('says which address to open instead', async () => {
    const { text } = await ask(server.port, { headers: { host: 'rebound.example' } });
    expect(text).toContain(`http://127.0.0.1:${server.port}/`);
  });

  it('cannot be passed by a full address in the request line', async () => {
    const line = `GET http://127.0.0.1:${server.port}/api/status HTTP/1.1`;
    const raw = await askRaw(server.port, `${line}\r\nhost: rebound.example\r\nconnection: close\r\n\r\n`);
    expect(refusalOf(raw)).toEqual({ status: 403, code: 'host-refused' });
  });
});

const FOREIGN_ORIGINS = [
  'null',
  'http://elsewhere.example',
  'http://elsewhere.example:PORT',
  'https://127.0.0.1:PORT',
  'http://127.0.0.1:1',
  'http://127.0.0.1',
  'http://localhost:PORT',
  'http://127.0.0.1:PORT.elsewhere.example',
  'http://127.0.0.1:PORT/',
  'file://',
  'http://127.0.0.1:PORT, http://elsewhere.example',
];

/** The same question three ways: whether it was let through. */
async function tryAll(headers: Record<string, string>): Promise<Record<string, boolean | string>> {
  const before = server.app.asked.length;
  const got = await ask(server.port, { headers });
  const posted = await post(server.port, '/api/link', { use: 'simulated' }, headers);
  const upgraded = await handshake(headers);
  return {
    get: got.status === 200 || codeOf(got.text),
    post: posted.status === 204 || codeOf(posted.text),
    live: upgraded.startsWith('HTTP/1.1 101') || refusalOf(upgraded).code,
    acted: server.app.asked.length > before,
  };
}

describe('the Origin header', () => {
  const passed = { get: true, post: true, live: true, acted: true };
  const refused = { get: 'origin-refused', post: 'origin-refused', live: 'origin-refused', acted: false };

  it('lets this page through', async () => {
    expect(await tryAll({ origin: withPort('http://127.0.0.1:PORT') })).toEqual(passed);
    const names = { host: withPort('LOCALHOST:PORT'), origin: withPort('http://localhost:PORT') };
    expect(await tryAll(names)).toEqual(passed);
    const v6 = { host: withPort('[0:0::1]:PORT'), origin: withPort('http://[::1]:PORT') };
    expect(await tryAll(v6)).toEqual(passed);
  });

  it('may be missing: then the caller is a program, not a page', async () => {
    expect(await tryAll({})).toEqual(passed);
  });

  it.each(FOREIGN_ORIGINS)('refuses %s', async (origin) => {
    expect(await tryAll({ origin: withPort(origin) })).toEqual(refused);
  });

  it('refuses a preflight from elsewhere and promises nothing to anyone', async () => {
    const headers = { origin: 'http://elsewhere.example', 'access-control-request-method': 'POST' };
    const answer = await ask(server.port, { method: 'OPTIONS', path: '/api/link', headers });
    expect(answer.status).toBe(403);
    expect(Object.keys(answer.headers).filter((name) => name.startsWith('access-control'))).toEqual([]);
  });
});

describe('a handshake', () => {
  it('is taken at /live only', async () => {
    for (const path of ['/', '/live/', '/live?x=1', '/LIVE', '/api/status']) {
      expect(refusalOf(await handshake({}, path))).toEqual({ status: 404, code: 'not-found' });
    }
  });
});

/** A request as it would come in over the local network; addresses from RFC 5737 and RFC 3849. */
function fromAfar(remoteAddress: string, localAddress: string, headers: Record<string, string>): IncomingMessage {
  return { headers, socket: { remoteAddress, localAddress, localPort: 4680 } } as unknown as IncomingMessage;
}

describe('on the local network', () => {
  it('the address that the connection came in at is a good Host, others are not', () => {
    const at = (host: string, local = '192.0.2.5') =>
      refuseRequest(fromAfar('192.0.2.9', local, { host }))?.code ?? 'passed';
    expect(at('192.0.2.5:4680')).toBe('passed');
    expect(at('192.0.2.5:4680', '::ffff:192.0.2.5')).toBe('passed');
    expect(at('[2001:DB8::5]:4680', '2001:db8::5')).toBe('passed');
    expect(at('192.0.2.6:4680')).toBe('host-refused');
    expect(at('192.0.2.5:80')).toBe('host-refused');
    expect(at('bench.local:4680')).toBe('host-refused');
  });

  it('names of loopback are no good there', () => {
    const at = (host: string) =>
      refuseRequest(fromAfar('192.0.2.9', '192.0.2.5', { host }))?.code ?? 'passed';
    expect(['localhost:4680', '127.0.0.1:4680', '[::1]:4680'].map(at)).toEqual(Array(3).fill('host-refused'));
  });

  it('only what comes from the computer itself, to itself, is the bench', () => {
    const from = (remote: string, local = '127.0.0.1') =>
      isAtBench(fromAfar(remote, local, {}).socket);
    expect(['127.0.0.1', '127.8.8.8', '::1', '::ffff:127.0.0.1'].map((one) => from(one))).toEqual(Array(4).fill(true));
    const afar = ['192.0.2.9', '::ffff:192.0.2.9', '2001:db8::127', '', '1127.0.0.1'];
    expect(afar.map((one) => from(one))).toEqual(Array(5).fill(false));
    expect(from('127.0.0.1', '192.0.2.5')).toBe(false);
  });

  const lan = Object.values(networkInterfaces())
    .flatMap((addresses) => addresses ?? [])
    .find((address) => address.family === 'IPv4' && !address.internal)?.address;

  it.skipIf(lan === undefined)('a viewer reads and is refused operating (needs a network card)', async () => {
    const open = await startServer({ host: '0.0.0.0' });
    const host = lan ?? '';
    const own = { host: `${host}:${open.port}` };
    expect((await ask(open.port, { host, headers: own })).status).toBe(200);
    const rebound = await ask(open.port, { host, headers: { host: `rebound.example:${open.port}` } });
    expect(codeOf(rebound.text)).toBe('host-refused');
    const headers = { ...own, 'content-type': 'application/json' };
    for (const path of ['/api/link', '/api/actions', '/api/board']) {
      const refused = await ask(open.port, { host, headers, method: 'POST', path, body: '{"use":"simulated"}' });
      expect([refused.status, codeOf(refused.text)]).toEqual([403, 'viewers-only']);
    }
    expect(open.app.asked).toEqual([]);
    expect((await post(open.port, '/api/link', { use: 'simulated' })).status).toBe(204);
    await open.close();
  });
});
