/**
 * Who may talk to the server: the guard against DNS rebinding (a foreign name that resolves to
 * this machine) and against foreign pages that make a visitor's browser post to it.
 *
 * A Host is good when it names this machine as the connection sees it: a loopback name on a
 * connection that came in at loopback, else the very address that it came in at (so the network's
 * addresses are good exactly while they are open), with the port that it came in at. An Origin,
 * where there is one, must be that same Host: no other site, `null` (a file, a sandboxed frame)
 * included. Browsers always send Origin with a POST and with a WebSocket handshake, and leave it
 * out of plain page loads; where it is missing on a POST or a handshake, the caller is a program on
 * the network and no page.
 */
import type { IncomingMessage, Server } from 'node:http';
import type { Socket } from 'node:net';
import { HttpError } from './errors.ts';

/** Host names by which every computer knows itself. */
const LOOPBACK_NAMES = ['localhost', '127.0.0.1', '[::1]'];
const AUTHORITY = /^(\[[0-9a-f:.]+\]|[a-z0-9.-]+)(?::([0-9]{1,5}))?$/i;
const HTTP_PORT = 80;

interface Authority {
  readonly name: string;
  readonly port: number;
}

/** Null when the request may go on. */
export function refuseRequest(request: IncomingMessage): HttpError | null {
  const host = parseAuthority(request.headers.host);
  if (!host || !isThisMachine(host, request.socket)) {
    return new HttpError(
      'host-refused',
      `This address is not one of this computer's own. Open ${ownAddress(request.socket)} instead.`,
    );
  }
  const { origin } = request.headers;
  if (origin !== undefined && !isSame(parseOrigin(origin), host)) {
    return new HttpError(
      'origin-refused',
      `Another site's page may not use this one. Open ${ownAddress(request.socket)} itself.`,
    );
  }
  return null;
}

/** Connections that came in at a door to the network. */
const FROM_NETWORK = new WeakSet<Socket>();

/** What comes in at this server is from afar, whatever its addresses look like. */
export function takeAsNetwork(server: Server): void {
  server.on('connection', (socket: Socket) => FROM_NETWORK.add(socket));
}

/** Whether a connection comes from this computer itself, at its own door. */
export function isAtBench(socket: Socket): boolean {
  if (FROM_NETWORK.has(socket)) return false;
  return [socket.localAddress, socket.remoteAddress].every(isLoopback);
}

/** The other end's address, spelt one way. */
export function remoteAddressOf(socket: Socket): string {
  return plainAddress(socket.remoteAddress);
}

function isLoopback(address: string | undefined): boolean {
  const plain = plainAddress(address);
  return plain === '::1' || plain.startsWith('127.');
}

/** Null when a WebSocket handshake may go on to the live feed. */
export function refuseHandshake(request: IncomingMessage): HttpError | null {
  const refusal = refuseRequest(request);
  if (refusal) return refusal;
  return request.url === '/live'
    ? null
    : new HttpError('not-found', 'There is no such address. Live readings are at /live.');
}

function parseAuthority(text: string | undefined): Authority | null {
  const match = AUTHORITY.exec(text ?? '');
  const name = match?.[1]?.toLowerCase();
  if (name === undefined) return null;
  return { name: canonicalName(name), port: Number(match?.[2] ?? HTTP_PORT) };
}

/** IPv6 has many spellings of one address; a name may end in the dot of the DNS root. */
function canonicalName(name: string): string {
  if (!name.startsWith('[')) return name.replace(/\.$/, '');
  return URL.canParse(`http://${name}/`) ? new URL(`http://${name}/`).hostname : name;
}

function parseOrigin(origin: string): Authority | null {
  return origin.startsWith('http://') ? parseAuthority(origin.slice('http://'.length)) : null;
}

function isSame(origin: Authority | null, host: Authority): boolean {
  return origin !== null && origin.name === host.name && origin.port === host.port;
}

function isThisMachine(host: Authority, socket: Socket): boolean {
  if (host.port !== portOf(socket)) return false;
  if (host.name === ownName(socket)) return true;
  const isFromAfar = FROM_NETWORK.has(socket) || !isLoopback(socket.localAddress);
  return !isFromAfar && LOOPBACK_NAMES.includes(host.name);
}

/** The name of the address that the connection came in at, as a Host header spells it. */
function ownName(socket: Socket): string {
  const address = plainAddress(socket.localAddress);
  return address.includes(':') ? `[${address}]` : address;
}

function ownAddress(socket: Socket): string {
  return `http://${ownName(socket) || '127.0.0.1'}:${portOf(socket)}/`;
}

function portOf(socket: Socket): number {
  return socket.localPort ?? HTTP_PORT;
}

/** A socket that listens on IPv4 and IPv6 at once shows IPv4 addresses inside IPv6 ones. */
function plainAddress(address: string | undefined): string {
  return (address ?? '').replace(/^::ffff:(?=[0-9.]+$)/, '');
}
